import { questionFindings } from '../question-findings.ts';
import type { Rule } from '../rule.ts';

export const wrongKey: Rule = {
  name: 'wrong-key',
  severity: 'error',
  summary: 'the key does not name the right choice',
  explanation:
    'The key is compared with the choices, and every choice with the value that the records give. A key that names another choice is flagged where it stands.',
  example: `\`\`\`measurement q7
instrument: vernier calipers
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
closed: vernier zero right, division 3
main scale reading: 2.45 cm
coinciding division: 17
find: corrected reading
option A: 2.484 cm
option B: 2.478 cm
answer = A
#        ^ error wrong-key
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
    return questionFindings(wrongKey, note, 'wrong-key');
  },
};
