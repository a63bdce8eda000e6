import { followingFindings } from '../following-findings.ts';
import type { Rule } from '../rule.ts';

export const earlyRounding: Rule = {
  name: 'early-rounding',
  severity: 'warning',
  summary: "right only from another quantity's rounded value",
  explanation:
    'A value that only comes out with a rounded intermediate result was rounded too early. Carry the exact value, or one more place, and round once at the end.',
  example: `\`\`\`measurement ball
d: 6.38 mm
m: 1.060 g
volume v = pi d^3 / 6 = 0.14 cm^3
density rho = m / v = 7.57 g/cm^3
#                     ^^^^^^^^^^^ warning early-rounding
\`\`\`
`,
  run(note) {
    return followingFindings(earlyRounding, note, 'rounded-early');
  },
};
