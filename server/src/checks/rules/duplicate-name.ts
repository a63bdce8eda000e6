import { problemFindings } from '../finding-from.ts';
import type { Rule } from '../rule.ts';

export const duplicateName: Rule = {
  name: 'duplicate-name',
  severity: 'error',
  summary: 'two records of one thing, or two blocks or rows of one name',
  explanation:
    'The first record stands and the second is not used, so that nothing depends on which of them was meant. Both places are shown.',
  example: `\`\`\`measurement hub-axle
instrument: vernier calipers
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
main scale reading: 2.45 cm
main scale reading: 2.50 cm
#^^^^^^^^^^^^^^^^^^^^^^^^^^ error duplicate-name
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
    return problemFindings(duplicateName, note);
  },
};
