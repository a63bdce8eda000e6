import { findingAt } from '../finding-from.ts';
import { impossibleReadings } from '../impossible-readings.ts';
import type { Rule } from '../rule.ts';

export const impossibleReading: Rule = {
  name: 'impossible-reading',
  severity: 'error',
  summary: 'these observations cannot occur together',
  explanation:
    'What the instrument cannot show was misread or mistyped: a division beyond the last one, a mark that the scale does not have, a drum that cannot stand so beside its sleeve.',
  example: `\`\`\`measurement hub-axle
instrument: vernier calipers
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
main scale reading: 2.45 cm
coinciding division: 27
#                    ^^ error impossible-reading
\`\`\`
`,
  fixedExample: `\`\`\`measurement hub-axle
instrument: vernier calipers
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
main scale reading: 2.45 cm
coinciding division: 17
\`\`\`
`,
  run(note) {
    return impossibleReadings(note).map(({ measurement, span, message, row, term }) =>
      findingAt(impossibleReading, measurement, span, { message, row, term }),
    );
  },
};
