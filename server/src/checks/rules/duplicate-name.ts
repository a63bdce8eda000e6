import { problemFindings } from '../finding-from.ts';
import type { Rule } from '../rule.ts';

export const duplicateName: Rule = {
  name: 'duplicate-name',
  severity: 'error',
  summary: 'two records of one thing, or two blocks or rows of one name',
  explanation: `Of two records of one thing the first stands and the second is not used, so that nothing depends on a
guess which of them was meant. Both places are shown. The same holds for two blocks of one name, two rows
of one label, two options of one letter and two keys.

Some lines are repeated on purpose and add up: scale lines, and \`closed:\`, where the zero error is then the
mean. Repeated readings of one length belong in a table, one row each.`,
  example: `\`\`\`measurement hub-cap
main scale: 1 mm = 1 MSD
vernier scale: 20 VSD = 19 MSD
main scale reading: 22 mm
coinciding division: 6
coinciding division: 7
#^^^^^^^^^^^^^^^^^^^^^ error duplicate-name: already recorded above
\`\`\`
`,
  fixedExample: `\`\`\`measurement hub-cap
main scale: 1 mm = 1 MSD
vernier scale: 20 VSD = 19 MSD
| main scale reading | coinciding division |
|--------------------|---------------------|
| 22 mm              | 6                   |
| 22 mm              | 7                   |
\`\`\`
`,
  run(note) {
    return problemFindings(duplicateName, note);
  },
};
