import { findingAt } from '../finding-from.ts';
import { readingLacks } from '../record-lacks.ts';
import type { Rule } from '../rule.ts';

export const ambiguousReading: Rule = {
  name: 'ambiguous-reading',
  severity: 'error',
  summary: 'more than one reading fits the observations',
  explanation:
    'On a sleeve marked in whole millimetres a screw of half a millimetre passes every division of its drum twice between two marks. Unless the half is seen and recorded, both readings fit.',
  example: `\`\`\`measurement spoke
instrument: screw gauge
screw: 1 rotation = 0.5 mm
linear scale: 1 LSD = 1 mm
circular scale: 50 divisions
linear scale reading: 6 mm
circular scale reading: 34
#                       ^^ error ambiguous-reading
\`\`\`
`,
  run(note) {
    return readingLacks(note).flatMap(({ measurement, row, lack, span }) =>
      lack.kind === 'ambiguous'
        ? [
            findingAt(ambiguousReading, measurement, lack.span ?? span, {
              message: lack.message,
              row,
              term: 'observed reading',
            }),
          ]
        : [],
    );
  },
};
