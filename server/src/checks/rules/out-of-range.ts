import { outOfRangeReadings } from '../out-of-range-readings.ts';
import type { Rule } from '../rule.ts';

export const outOfRange: Rule = {
  name: 'out-of-range',
  severity: 'warning',
  summary: 'the reading lies outside the stated range',
  explanation: `A reading that the instrument cannot reach, by the range that the block itself records, is worth a
second look: a digit may be swapped, the unit wrong, or the range that of another instrument. Both ends
belong to the range.`,
  example: `\`\`\`measurement long-spoke
main scale: 1 mm = 1 MSD
vernier scale: 20 VSD = 19 MSD
measuring range: 0 mm to 150 mm
main scale reading: 163 mm
#                   ^^^^^^ warning out-of-range
coinciding division: 4
\`\`\`
`,
  fixedExample: `\`\`\`measurement long-spoke
main scale: 1 mm = 1 MSD
vernier scale: 20 VSD = 19 MSD
measuring range: 0 mm to 150 mm
main scale reading: 136 mm
coinciding division: 4
\`\`\`
`,
  run(note) {
    return outOfRangeReadings(outOfRange, note);
  },
};
