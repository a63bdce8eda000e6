// Checks the colours of measurement blocks with the editor's own tokenizer.
import { tokenizer } from './tokens-of.mjs';

const BLOCK = `measurement axle
instrument: vernier calipers
main scale: 1 cm = 10 MSD   # engraved
closed: vernier zero right, division 4
observed reading = 1.2 cm + 7 × 0.01 cm = ?
density rho = m / (pi D^3) = 7.80 g/cm^3
| MSR    | CSR |
|--------|-----|
| 1.2 cm | 7   | # first`;

/** A text of the block, and what it is. */
const SCOPES = [
  ['instrument', 'keyword.control'],
  ['vernier calipers', 'string.unquoted'],
  ['main scale', 'entity.name.type'],
  ['1', 'constant.numeric'],
  ['cm', 'keyword.other.unit'],
  ['MSD', 'keyword.other.unit'],
  ['# engraved', 'comment.line'],
  ['closed', 'keyword.control'],
  ['observed reading', 'variable.other'],
  ['7', 'constant.numeric'],
  ['×', 'keyword.operator.arithmetic'],
  ['?', 'keyword.other.question'],
  ['pi', 'constant.language'],
  ['g/cm^3', 'keyword.other.unit'],
  ['--------', 'punctuation.separator.table'],
  ['# first', 'comment.line'],
];

const OURS = 'meta.embedded.block.measurement';

/** Notes with blocks, and what each line of the fence begins with. */
const FENCES = {
  'at the margin': fenced('', '```', BLOCK),
  'of tildes': fenced('', '~~~~', BLOCK),
  'with attributes': fenced('', '```', BLOCK.replace('measurement axle', '{.measurement #axle}')),
  'with the word in capitals': fenced('', '```', BLOCK.replace('measurement', 'Measurement')),
  'in a quotation': fenced('> ', '```', BLOCK),
  'in a list': `- One axle.\n\n${fenced('  ', '```', BLOCK)}`,
  'in a numbered list': `1. One axle.\n\n${fenced('   ', '```', BLOCK)}`,
  'in a quotation in a list': `- One axle.\n\n${fenced('  > ', '```', BLOCK)}`,
  'that begins an item': `- ${fenced('  ', '```', BLOCK).trimStart()}`,
};

/** Notes without a block. */
const NONE = {
  'another language': '```js\nconst reading = 1;\n```',
  'a word that begins alike': fenced('', '```', BLOCK.replace('measurement', 'measurements')),
  'a block shown in a longer fence': `\`\`\`\`markdown\n${fenced('', '```', BLOCK)}\n\`\`\`\``,
  'a comment': `<!--\n${fenced('', '```', BLOCK)}\n-->`,
  prose: 'The observed reading = 1.2 cm, in a `measurement` block.',
};

/** What is wrong with the colours, a line each. */
export async function grammarFaults() {
  const tokensOf = await tokenizer();
  const faults = [];
  for (const [what, note] of Object.entries(FENCES)) {
    const tokens = tokensOf(`${note}\n\nProse = 1 cm.`);
    const ours = tokens.filter(({ scopes }) => scopes.includes(OURS));
    for (const [text, scope] of SCOPES) {
      const found = ours.filter(token => token.text.trim() === text);
      if (!found.some(({ scopes }) => scopes.some(each => each.startsWith(scope))))
        faults.push(`A block ${what}: ${text} is no ${scope}, but ${JSON.stringify(found[0]?.scopes)}`);
    }
    if (ours.some(({ text }) => text.includes('Prose'))) faults.push(`A block ${what} does not end`);
    if (ours.some(({ text }) => /^[`~]{3}/.test(text.trim())))
      faults.push(`A block ${what} takes its fence in`);
  }
  for (const [what, note] of Object.entries(NONE)) {
    const taken = tokensOf(note).find(({ scopes }) => scopes.some(scope => scope.endsWith('.measurement')));
    if (taken !== undefined) faults.push(`Not a block, ${what}: ${taken.text} is ${taken.scopes.join(' ')}`);
  }
  return faults;
}

function fenced(prefix, fence, block) {
  return [`${fence}${block}`, fence].join('\n').replaceAll(/^/gm, prefix);
}
