import { questionFindings } from '../question-findings.ts';
import type { Rule } from '../rule.ts';

export const wrongKey: Rule = {
  name: 'wrong-key',
  severity: 'error',
  summary: 'the key does not name the right choice',
  explanation: `Every choice is compared with the value that the records give, and the key with the choices. A key that
names another choice than the right one is flagged where it stands, and so is one that leaves a right
choice out. A wrong key does more harm than a wrong choice: it marks those students down who worked it out
rightly.`,
  example: `\`\`\`measurement bench-bolt
main scale: 1 mm = 1 MSD
vernier scale: 20 VSD = 19 MSD
closed: vernier zero right, division 2
main scale reading: 7 mm
coinciding division: 13
find: corrected reading
option A: 7.65 mm
option B: 7.55 mm
answer = A
#        ^ error wrong-key: 7.55 mm, which is choice B
\`\`\`
`,
  fixedExample: `\`\`\`measurement bench-bolt
main scale: 1 mm = 1 MSD
vernier scale: 20 VSD = 19 MSD
closed: vernier zero right, division 2
main scale reading: 7 mm
coinciding division: 13
find: corrected reading
option A: 7.65 mm
option B: 7.55 mm
answer = B
\`\`\`
`,
  run(note) {
    return questionFindings(wrongKey, note, 'wrong-key');
  },
};
