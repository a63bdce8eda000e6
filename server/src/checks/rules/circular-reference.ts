import { claimFinding, findingAt, problemFindings } from '../finding-from.ts';
import { recordLacks } from '../record-lacks.ts';
import type { Rule } from '../rule.ts';

export const circularReference: Rule = {
  name: 'circular-reference',
  severity: 'error',
  summary: 'a quantity that is worked out from itself',
  explanation: `Lines may refer to each other in any order, but not in a ring: where a rests on b and b on a, nothing says
what either of them is. One of the lines has to record what was read or given. Blocks that use each other
form a ring as well.`,
  example: `\`\`\`measurement gear-train
a: 2 × b
#  ^^^^^ error circular-reference
b: a / 2
#  ^^^^^ error circular-reference
\`\`\`
`,
  fixedExample: `\`\`\`measurement gear-train
a: 2 × b
b: 12.5 mm
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
