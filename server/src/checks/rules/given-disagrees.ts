import { disagreeingGivens } from '../disagreeing-givens.ts';
import type { Rule } from '../rule.ts';

export const givenDisagrees: Rule = {
  name: 'given-disagrees',
  severity: 'error',
  summary: 'a given value differs from what the records make it',
  explanation:
    'A pitch beside the screw, or a least count beside the scales, says twice what is settled once. Where the two differ the scales are used and the given value is flagged.',
  example: `\`\`\`measurement spoke
instrument: screw gauge
screw: 5 rotations = 2.5 mm
circular scale: 50 divisions
pitch: 0.05 mm
#      ^^^^^^^ error given-disagrees
\`\`\`
`,
  fixedExample: `\`\`\`measurement spoke
instrument: screw gauge
screw: 5 rotations = 2.5 mm
circular scale: 50 divisions
pitch: 0.5 mm
\`\`\`
`,
  run(note) {
    return disagreeingGivens(givenDisagrees, note);
  },
};
