import { cpSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { PROJECT } from '../workspace.mjs';

/** The examples: the name of each file, the heading that it begins with and how many blocks it has. */
export function exampleNotes() {
  return readdirSync(join(PROJECT, 'examples'))
    .filter(name => /^\d\d-.*\.md$/.test(name))
    .map(name => {
      const text = readFileSync(join(PROJECT, 'examples', name), 'utf8');
      const [, heading] = /^# (.*)$/m.exec(text);
      return { name, heading, blocks: text.match(/^```measurement/gm).length };
    });
}

/** A note whose every name tries to be something else. */
export const HOSTILE = `# A note of a bad neighbour

${[
  ['"><script>window.harmed = 1</script>', '<img src=x onerror="window.harmed=1">'],
  ["' onload='window.harmed=1", '</title></desc></svg><script>window.harmed = 1</script>'],
  [
    ']]><!-- &amp; &#60;script&#62;',
    '<svg onload=window.harmed=1><a href="javascript:window.harmed=1">x</a>',
  ],
  [
    'turned \u202eround\u2066 and\u200f about',
    '<style>*{display:none}</style><iframe srcdoc="<script>parent.harmed=1</script>">',
  ],
]
  .map(
    ([instrument, name]) => `\`\`\`measurement ${name}
instrument: ${instrument}
main scale: 1 mm = 1 MSD
vernier scale: 10 VSD = 9 MSD
closed: vernier zero right, division 2
<b onclick="window.harmed=1">width</b>: 3 mm
| label | MSR | n |
| ${name} | 21 mm | 4 |
observed reading = 21.9 mm
\`\`\`
`,
  )
  .join('\n')}
The end of the bad note.
`;

/** A note that is long enough to be scrolled, to be written in while its preview stands beside it. */
export const WRITTEN = `# A long day at the bench

${Array.from({ length: 9 }, (_, at) => `Pair ${at + 1}: wiped, closed, read.\n`).join('\n')}
\`\`\`measurement sleeve
instrument: vernier calipers
main scale: 1 mm = 1 MSD
vernier scale: 10 VSD = 9 MSD
main scale reading: 24 mm
coinciding division: 7
observed reading = 24.7 mm
\`\`\`

${Array.from({ length: 30 }, (_, at) => `Line ${at + 1} after it, of the next morning.\n`).join('\n')}
`;

/** Where the notes of an apprentice stand, who is told no values. */
export const APPRENTICE = 'apprentice';

/** How the apprentice's copy of an example is called: by no name that a search for the example would find. */
export function hisName(name) {
  return `his-${name.slice(0, 2)}.md`;
}

/**
 * Writes the notes that no example is: a bad neighbour's, a long one, and the examples as an apprentice has them. The
 * careless copies go, for they have the names of the examples.
 */
export function writeSpecialNotes(notes) {
  rmSync(join(notes, 'careless'), { recursive: true });
  writeFileSync(join(notes, 'hostile.md'), HOSTILE);
  writeFileSync(join(notes, 'written.markdown'), WRITTEN);
  mkdirSync(join(notes, APPRENTICE));
  writeFileSync(join(notes, APPRENTICE, 'leastwise.config.json'), JSON.stringify({ student: true }));
  for (const { name } of exampleNotes()) cpSync(join(notes, name), join(notes, APPRENTICE, hisName(name)));
}
