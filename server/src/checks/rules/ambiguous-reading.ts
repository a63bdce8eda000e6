import { findingAt } from '../finding-from.ts';
import { readingLacks } from '../record-lacks.ts';
import type { Rule } from '../rule.ts';

export const ambiguousReading: Rule = {
  name: 'ambiguous-reading',
  severity: 'error',
  summary: 'more than one reading fits the observations',
  explanation: `A screw of half a millimetre turns twice between two marks that are a millimetre apart, so its drum shows
every division twice. Unless somebody looked whether the first half was past, both readings fit, and they
differ by half a millimetre.

Say it with a sleeve that marks the halves (\`linear scale: 1 LSD = 0.5 mm\`), or by counting turns
(\`full rotations: 13\`).`,
  example: `\`\`\`measurement spoke-thread
instrument: screw gauge
screw: 1 rotation = 0.5 mm
linear scale: 1 LSD = 1 mm
circular scale: 50 divisions
linear scale reading: 6 mm
circular scale reading: 34
#                       ^^ error ambiguous-reading: 6.34 mm or 6.84 mm
\`\`\`
`,
  fixedExample: `\`\`\`measurement spoke-thread
instrument: screw gauge
screw: 1 rotation = 0.5 mm
linear scale: 1 LSD = 0.5 mm
circular scale: 50 divisions
linear scale reading: 6.5 mm
circular scale reading: 34
observed reading = 6.84 mm
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
