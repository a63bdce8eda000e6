import { questionFindings } from '../question-findings.ts';
import type { Rule } from '../rule.ts';

export const noRightOption: Rule = {
  name: 'no-right-option',
  severity: 'error',
  summary: 'no choice is right',
  explanation:
    'Where no choice is equal to the value that the records give (and none says none of these), students cannot answer.',
  example: `\`\`\`measurement q7
instrument: vernier calipers
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
closed: vernier zero right, division 3
main scale reading: 2.45 cm
coinciding division: 17
find: corrected reading
option A: 2.484 cm
option B: 2.490 cm
answer = A
#        ^ error no-right-option
\`\`\`
`,
  fixedExample: `\`\`\`measurement q7
instrument: vernier calipers
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
closed: vernier zero right, division 3
main scale reading: 2.45 cm
coinciding division: 17
find: corrected reading
option A: 2.484 cm
option B: 2.478 cm
answer = B
\`\`\`
`,
  run(note) {
    return questionFindings(noRightOption, note, 'no-right-option');
  },
};
