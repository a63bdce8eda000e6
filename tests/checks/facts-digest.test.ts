import { expect, it } from 'vitest';
import { examineNote } from '../../server/src/checks/examine.ts';
import { factsDigest } from '../../server/src/checks/facts-digest.ts';

const LINES = [
  'instrument: vernier calipers',
  'main scale: 1 cm = 20 MSD',
  'vernier scale: 25 VSD = 24 MSD',
  'closed: vernier zero right, division 3',
  '| label | MSR     | n  |',
  '| left  | 2.45 cm | 17 |',
  '| right | 2.40 cm | 4  |',
  'm: 1.06 g ± 0.01 g',
  'find: corrected reading of left',
  'option A: 2.484 cm',
  'option B: 2.478 cm',
  'answer = B',
];

function digestOf(lines: readonly string[]): string {
  const note = examineNote(`\`\`\`measurement sleeve\n${lines.join('\n')}\n\`\`\`\n`)!;
  return factsDigest(note.facts.block(0));
}

/** The block with one line in the place of another; an empty one leaves it out. */
function withLine(before: string, after: string): readonly string[] {
  expect(LINES).toContain(before);
  return LINES.flatMap(line => (line === before ? (after === '' ? [] : [after]) : [line]));
}

const digest = digestOf(LINES);

it('is six hexadecimal digits', () => {
  expect(digest).toMatch(/^[0-9a-f]{6}$/);
});

it.each<[string, readonly string[]]>([
  ['its records in another order', [...LINES.slice(4), ...LINES.slice(0, 4).reverse()]],
  [
    'other blanks and comments',
    LINES.map(line => (line.startsWith('|') ? line : `  ${line.replace(': ', ' :  ')}   # so`)),
  ],
  ['short names', withLine('main scale: 1 cm = 20 MSD', '1 MSD: 0.5 mm')],
  ['another unit', withLine('| left  | 2.45 cm | 17 |', '| left  | 24.5 mm | 17 |')],
  ['another unit of a choice', withLine('option A: 2.484 cm', 'option A: 24.84 mm')],
  ['the rule for errors that holds anyhow', [...LINES, 'error rule: least count']],
  ['another claim', [...LINES, 'least count = 0.02 mm']],
  ['a wrong claim', [...LINES, 'least count = 0.05 mm', 'zero error = -7 cm']],
  ['a claim that asks', [...LINES, 'zero correction = ?']],
])('stays the same with %s', (_, lines) => {
  expect(digestOf(lines)).toBe(digest);
});

it.each<[string, readonly string[]]>([
  ['a reading', withLine('| left  | 2.45 cm | 17 |', '| left  | 2.45 cm | 18 |')],
  ['a scale', withLine('vernier scale: 25 VSD = 24 MSD', 'vernier scale: 50 VSD = 49 MSD')],
  ['the closed position', withLine('closed: vernier zero right, division 3', 'closed: zeros coincide')],
  [
    'the side of zero',
    withLine('closed: vernier zero right, division 3', 'closed: vernier zero left, division 3'),
  ],
  [
    'two closed positions with the same mean',
    [
      ...withLine('closed: vernier zero right, division 3', 'closed: vernier zero right, division 2'),
      'closed: vernier zero right, division 4',
    ],
  ],
  ['the label of a row', withLine('| left  | 2.45 cm | 17 |', '| outer | 2.45 cm | 17 |')],
  ['a row', withLine('| right | 2.40 cm | 4  |', '')],
  ['an error', withLine('m: 1.06 g ± 0.01 g', 'm: 1.06 g ± 0.02 g')],
  ['a quantity of its own', withLine('m: 1.06 g ± 0.01 g', 'm: 1.05 g ± 0.01 g')],
  ['a list', [...LINES, 'T: 2.1 s, 2.3 s']],
  ['the error rule', [...LINES, 'error rule: half the least count']],
  ['what is asked', withLine('find: corrected reading of left', 'find: corrected reading of right')],
  ['a choice', withLine('option A: 2.484 cm', 'option A: 2.450 cm')],
  ['the key', withLine('answer = B', 'answer = A')],
  ['the definition of a quantity', [...LINES, 'density rho = m / 1 cm^3 = 1.06 g/cm^3']],
])('changes with %s', (_, lines) => {
  expect(digestOf(lines)).not.toBe(digest);
});

it('tells two lists with one mean apart', () => {
  expect(digestOf(['T: 2.1 s, 2.3 s'])).not.toBe(digestOf(['T: 2.0 s, 2.4 s']));
  expect(digestOf(['T: 2.1 s, 2.3 s'])).toBe(digestOf(['T: 2.10 s, 2300 ms']));
});
