import { followingFindings } from '../following-findings.ts';
import type { Rule } from '../rule.ts';

export const carriedForward: Rule = {
  name: 'carried-forward',
  severity: 'warning',
  summary: 'right from a wrong line above',
  explanation:
    'A line that follows correctly from a wrong one is no fresh mistake. It is pointed back to its cause, and is right as soon as that is mended.',
  example: `\`\`\`measurement hub-axle
instrument: vernier calipers
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
closed: vernier zero right, division 3
zero error = -0.06 mm
#            ^^^^^^^^ error wrong-value
main scale reading: 2.45 cm
coinciding division: 17
corrected reading = 2.490 cm
#                   ^^^^^^^^ warning carried-forward
\`\`\`
`,
  fixedExample: `\`\`\`measurement hub-axle
instrument: vernier calipers
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
closed: vernier zero right, division 3
zero error = +0.06 mm
main scale reading: 2.45 cm
coinciding division: 17
corrected reading = 2.478 cm
\`\`\`
`,
  run(note) {
    return followingFindings(carriedForward, note, 'carried');
  },
};
