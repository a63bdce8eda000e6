import { problemFindings } from '../finding-from.ts';
import type { Rule } from '../rule.ts';

export const unknownTerm: Rule = {
  name: 'unknown-term',
  severity: 'error',
  summary: 'nearly a term, or no such term',
  explanation: `A name that is nearly a word of the trade, at most two letters off, is taken for a slip of the pen. So is
a name that consists of words of the trade and yet is no term, such as \`vernier coinciding division\`.
Neither becomes a quantity of its own in silence, for then the reading would rest on something else than
its writer believes.

A quantity of your own is safe with a symbol (\`wall thickness t\`) or with a word that the trade does not
use (\`pitch circle diameter\`). The rule also speaks where a question asks for what the note does not have,
and where a waiver names no rule.`,
  example: `\`\`\`measurement hub-shell
main scale: 1 mm = 1 MSD
vernier scale: 20 VSD = 19 MSD
main scale reading: 38 mm
coinciding divison: 9
#^^^^^^^^^^^^^^^^^ error unknown-term: coinciding division is likely meant
\`\`\`
`,
  fixedExample: `\`\`\`measurement hub-shell
main scale: 1 mm = 1 MSD
vernier scale: 20 VSD = 19 MSD
main scale reading: 38 mm
coinciding division: 9
\`\`\`
`,
  run(note) {
    return problemFindings(unknownTerm, note);
  },
};
