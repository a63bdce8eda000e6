import { followingFindings } from '../following-findings.ts';
import type { Rule } from '../rule.ts';

export const earlyRounding: Rule = {
  name: 'early-rounding',
  severity: 'warning',
  summary: "right only from another quantity's rounded value",
  explanation: `A value that comes out only with a rounded result of an earlier line was rounded too early: the error of
that rounding is carried into it, and grows with every power and product. Carry the exact value on, or at
least one more place, and round once, at the end.

Rounding twice within one line is a wrong value.`,
  example: `\`\`\`measurement bell-ball
d: 6.38 mm
m: 1.060 g
volume v = pi d^3 / 6 = 0.14 cm^3
density rho = m / v = 7.57 g/cm^3
#                     ^^^^^^^^^^^ warning early-rounding: 7.80 g/cm^3 is right
\`\`\`
`,
  fixedExample: `\`\`\`measurement bell-ball
d: 6.38 mm
m: 1.060 g
volume v = pi d^3 / 6 = 0.1360 cm^3
density rho = m / v = 7.80 g/cm^3
\`\`\`
`,
  run(note) {
    return followingFindings(earlyRounding, note, 'rounded-early');
  },
};
