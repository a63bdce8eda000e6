import type { Rule } from '../rule.ts';
import { wrongValueFindings } from '../wrong-value-findings.ts';

export const wrongValue: Rule = {
  name: 'wrong-value',
  severity: 'error',
  summary: 'a link is not equal to what the records make it; the slip, if one is known',
  explanation:
    'Every link of a claim is compared with the exact value that the records give. A wrong one is compared with what the known slips would have given on the same data, so that the message can say not only what is right but what went wrong.',
  example: `\`\`\`measurement hub-axle
instrument: vernier calipers
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
main scale reading: 2.45 cm
coinciding division: 17
observed reading = 2.494 cm
#                  ^^^^^^^^ error wrong-value
\`\`\`
`,
  fixedExample: `\`\`\`measurement hub-axle
instrument: vernier calipers
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
main scale reading: 2.45 cm
coinciding division: 17
observed reading = 2.484 cm
\`\`\`
`,
  run(note) {
    return wrongValueFindings(wrongValue, note);
  },
};
