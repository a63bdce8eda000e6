import { questionFindings } from '../question-findings.ts';
import type { Rule } from '../rule.ts';

export const severalRightOptions: Rule = {
  name: 'several-right-options',
  severity: 'error',
  summary: 'more than one choice is right',
  explanation: 'Two choices that both round the right value leave students to guess which one is meant.',
  example: `\`\`\`measurement q7
instrument: vernier calipers
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
closed: vernier zero right, division 3
main scale reading: 2.45 cm
coinciding division: 17
find: corrected reading
option A: 2.478 cm
option B: 24.78 mm
answer = A
#        ^ error several-right-options
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
option A: 2.478 cm
option B: 24.84 mm
answer = A
\`\`\`
`,
  run(note) {
    return questionFindings(severalRightOptions, note, 'several-right-options');
  },
};
