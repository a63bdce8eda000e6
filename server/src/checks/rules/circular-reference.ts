import { claimFinding, findingAt, problemFindings } from '../finding-from.ts';
import { recordLacks } from '../record-lacks.ts';
import type { Rule } from '../rule.ts';

export const circularReference: Rule = {
  name: 'circular-reference',
  severity: 'error',
  summary: 'a quantity that is worked out from itself',
  explanation:
    'Records and claims may refer to each other, but not in a ring: then nothing says what any of them is.',
  example: `\`\`\`measurement ring
a: 2 b
b: 3 a
sum c = a + b = 5 mm
#       ^^^^^ error circular-reference
\`\`\`
`,
  run(note) {
    const claims = note.verdicts.flatMap(verdict =>
      verdict.kind === 'lack' && verdict.lack.kind === 'circular'
        ? [claimFinding(circularReference, note, verdict, { message: verdict.lack.message })]
        : [],
    );
    const records = recordLacks(note).flatMap(({ measurement, span, lack }) =>
      lack.kind === 'circular'
        ? [findingAt(circularReference, measurement, span, { message: lack.message })]
        : [],
    );
    return [...problemFindings(circularReference, note), ...records, ...claims];
  },
};
