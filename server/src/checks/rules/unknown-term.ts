import { problemFindings } from '../finding-from.ts';
import type { Rule } from '../rule.ts';

export const unknownTerm: Rule = {
  name: 'unknown-term',
  severity: 'error',
  summary: 'nearly a term, or no such term',
  explanation:
    'A name without a symbol that is at most two letters away from a term of the trade is taken for a slip of the pen, and so is a name made of nothing but words of the trade. It never becomes a quantity of its own in silence; the fix writes the term.',
  example: `\`\`\`measurement hub-axle
instrument: vernier calipers
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
main scale reading: 2.45 cm
coinciding divison: 17
#^^^^^^^^^^^^^^^^^^^^^ error unknown-term
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
    return problemFindings(unknownTerm, note);
  },
};
