import type { Rule } from '../rule.ts';
import { wrongValueFindings } from '../wrong-value-findings.ts';

export const wrongValue: Rule = {
  name: 'wrong-value',
  severity: 'error',
  summary: 'a link is not equal to what the records make it; the slip, if one is known',
  explanation: `Every link of a claim is compared with the exact value that the records give. A wrong one is flagged at
its own place; a link that only repeats it is not flagged again, and a right link after it is right.

The wrong number is then held against what known slips would give on the same data, such as a line
miscounted by one or a zero correction that was left out, so that the message says not only what is right
but what went wrong.

A decimal may be rounded to the places stated. A reading may not: it is a whole number of least counts, so it
must be equal.`,
  example: `\`\`\`measurement stem-clamp
main scale: 1 mm = 1 MSD
vernier scale: 20 VSD = 19 MSD
main scale reading: 28 mm
coinciding division: 7
observed reading = 28 mm + 7 × 0.05 mm = 28.40 mm
#                                        ^^^^^^^^ error wrong-value: 28.35 mm is right
\`\`\`
`,
  fixedExample: `\`\`\`measurement stem-clamp
main scale: 1 mm = 1 MSD
vernier scale: 20 VSD = 19 MSD
main scale reading: 28 mm
coinciding division: 7
observed reading = 28 mm + 7 × 0.05 mm = 28.35 mm
\`\`\`
`,
  run(note) {
    return wrongValueFindings(wrongValue, note);
  },
};
