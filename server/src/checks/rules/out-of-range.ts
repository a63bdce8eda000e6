import { outOfRangeReadings } from '../out-of-range-readings.ts';
import type { Rule } from '../rule.ts';

export const outOfRange: Rule = {
  name: 'out-of-range',
  severity: 'warning',
  summary: 'the reading lies outside the stated range',
  explanation:
    'A reading that the instrument cannot show, by its own measuring range, is worth a second look.',
  example: `\`\`\`measurement hub-axle
instrument: vernier calipers
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
measuring range: 0 cm to 15 cm
main scale reading: 16.45 cm
#                   ^^^^^^^^ warning out-of-range
coinciding division: 17
\`\`\`
`,
  fixedExample: `\`\`\`measurement hub-axle
instrument: vernier calipers
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
measuring range: 0 cm to 20 cm
main scale reading: 16.45 cm
coinciding division: 17
\`\`\`
`,
  run(note) {
    return outOfRangeReadings(outOfRange, note);
  },
};
