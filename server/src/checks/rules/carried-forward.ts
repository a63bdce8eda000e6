import { followingFindings } from '../following-findings.ts';
import type { Rule } from '../rule.ts';

export const carriedForward: Rule = {
  name: 'carried-forward',
  severity: 'warning',
  summary: 'right from a wrong line above',
  explanation: `A line that follows correctly from a wrong one is no fresh mistake, and a marker would not take marks off
twice. It is pointed back to its cause; with the cause put right it has to be worked out again.

All wrong values above are put in first; then each alone, the nearest first, to find the line that the
value rests on.`,
  example: `\`\`\`measurement quill
main scale: 1 mm = 1 MSD
vernier scale: 20 VSD = 19 MSD
closed: vernier zero left, division 18
zero error = +0.10 mm
#            ^^^^^^^^ error wrong-value: -0.10 mm is right
main scale reading: 22 mm
coinciding division: 5
corrected reading = 22.15 mm
#                   ^^^^^^^^ warning carried-forward: 22.35 mm is right
\`\`\`
`,
  fixedExample: `\`\`\`measurement quill
main scale: 1 mm = 1 MSD
vernier scale: 20 VSD = 19 MSD
closed: vernier zero left, division 18
zero error = -0.10 mm
main scale reading: 22 mm
coinciding division: 5
corrected reading = 22.35 mm
\`\`\`
`,
  run(note) {
    return followingFindings(carriedForward, note, 'carried');
  },
};
