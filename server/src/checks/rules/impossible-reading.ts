import { findingAt } from '../finding-from.ts';
import { impossibleReadings } from '../impossible-readings.ts';
import type { Rule } from '../rule.ts';

export const impossibleReading: Rule = {
  name: 'impossible-reading',
  severity: 'error',
  summary: 'these observations cannot occur together',
  explanation: `What an instrument cannot show was misread or mistyped: a line beyond the vernier's last, a main scale
reading between two marks, a division that the drum does not have, a drum that cannot stand so beside
its sleeve.

The main scale reading is always a mark, the last one that the zero of the vernier (or the edge of the drum)
has passed. What lies beyond that mark is the fine scale's business.`,
  example: `\`\`\`measurement spindle
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
main scale reading: 2.43 cm
#                   ^^^^^^^ error impossible-reading
coinciding division: 26
#                    ^^ error impossible-reading: its last line is 25
\`\`\`
`,
  fixedExample: `\`\`\`measurement spindle
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
main scale reading: 2.40 cm
coinciding division: 16
\`\`\`
`,
  run(note) {
    return impossibleReadings(note).map(({ measurement, span, message, row, term }) =>
      findingAt(impossibleReading, measurement, span, { message, row, term }),
    );
  },
};
