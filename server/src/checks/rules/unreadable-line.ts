import { problemFindings } from '../finding-from.ts';
import type { Rule } from '../rule.ts';

export const unreadableLine: Rule = {
  name: 'unreadable-line',
  severity: 'error',
  summary: 'no form of line, or a value that cannot be read',
  explanation:
    'A line of a block is a record (name, colon, value), a claim (name, equals sign, links), a row of a table, or a comment behind #. Whatever is none of these cannot be checked, so it is said at its place; the rest of the block is still read. A decimal comma is no number either: write 0.5 mm.',
  example: `\`\`\`measurement hub-axle
instrument: vernier calipers
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
main scale reading: 2,45 cm
#                   ^^^^ error unreadable-line
coinciding division: 17
\`\`\`
`,
  fixedExample: `\`\`\`measurement hub-axle
instrument: vernier calipers
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
main scale reading: 2.45 cm
coinciding division: 17
\`\`\`
`,
  run(note) {
    return problemFindings(unreadableLine, note);
  },
};
