// Found when the waivers are applied, behind all other rules.
import type { Rule } from '../rule.ts';

export const unusedWaiver: Rule = {
  name: 'unused-waiver',
  severity: 'warning',
  summary: 'nothing to waive',
  explanation: 'A waiver whose finding is gone should go too, or it will hide the next one.',
  example: `\`\`\`measurement hub-axle
instrument: vernier calipers
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
waive: stated-precision, printed this way in the paper
#^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ warning unused-waiver
\`\`\`
`,
  fixedExample: `\`\`\`measurement hub-axle
instrument: vernier calipers
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
\`\`\`
`,
  run(note) {
    return note === null ? [] : [];
  },
};
