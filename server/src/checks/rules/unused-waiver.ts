// Found when the waivers are applied, behind all other rules.
import type { Rule } from '../rule.ts';

export const unusedWaiver: Rule = {
  name: 'unused-waiver',
  severity: 'warning',
  summary: 'nothing to waive',
  explanation: `A waiver says that a finding is known and stays, and why. When the finding is gone, the waiver should go
too: otherwise it hides the next finding of its kind in this block, which nobody has looked at.`,
  example: `\`\`\`measurement tool-wall
main scale: 1 mm = 1 MSD
vernier scale: 20 VSD = 19 MSD
main scale reading: 8 mm
coinciding division: 4
waive: stated-precision, printed this way on the old sheet
#^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ warning unused-waiver
observed reading = 8.20 mm
\`\`\`
`,
  fixedExample: `\`\`\`measurement tool-wall
main scale: 1 mm = 1 MSD
vernier scale: 20 VSD = 19 MSD
main scale reading: 8 mm
coinciding division: 4
observed reading = 8.20 mm
\`\`\`
`,
  run(note) {
    return note === null ? [] : [];
  },
};
