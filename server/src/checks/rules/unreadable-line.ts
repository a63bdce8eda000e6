import { problemFindings } from '../finding-from.ts';
import type { Rule } from '../rule.ts';

export const unreadableLine: Rule = {
  name: 'unreadable-line',
  severity: 'error',
  summary: 'no form of line, or a value that cannot be read',
  explanation: `A line of a block is a record (a name, a colon, a value), a claim (a name, an equals sign, one or more
links), a row of a table between bars, or a comment behind \`#\`. Whatever is none of these cannot be
checked, so it is said where it stands; the rest of the block is read as ever. What rests on a
record that could not be read is then neither right nor wrong: a vernier scale with a slip in it does not make the
main scale's division the least count.

What usually lies behind it: a sentence of the question that came along with the numbers (make it a
comment, or move it above the block), a decimal comma (decimals stand after a point), a bracket that is
never closed, a sign with nothing behind it.`,
  example: `\`\`\`measurement freewheel-body
The body of a freewheel, measured with the old calipers
#^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error unreadable-line: if it is text, make it a comment
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
main scale reading: 3,45 cm
#                   ^^^^ error unreadable-line: write 3.45
coinciding division: 8
observed reading = ?
\`\`\`
`,
  fixedExample: `\`\`\`measurement freewheel-body
# The body of a freewheel, measured with the old calipers
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
main scale reading: 3.45 cm
coinciding division: 8
observed reading = ?
\`\`\`
`,
  run(note) {
    return problemFindings(unreadableLine, note);
  },
};
