import { disagreeingGivens } from '../disagreeing-givens.ts';
import type { Rule } from '../rule.ts';

export const givenDisagrees: Rule = {
  name: 'given-disagrees',
  severity: 'error',
  summary: 'a given value differs from what the records make it',
  explanation: `A pitch beside the screw, a least count beside the scales, a zero error beside the closed position: each
says once more what is settled already. Where the two differ, what the scales give is used for everything
below, and the given value is flagged. Which of the two is wrong only the writer can tell, so the fix is an
offer.`,
  example: `\`\`\`measurement spoke-gauge
instrument: screw gauge
screw: 5 rotations = 2.5 mm
circular scale: 50 divisions
pitch: 0.05 mm
#      ^^^^^^^ error given-disagrees: make it 0.5 mm
\`\`\`
`,
  fixedExample: `\`\`\`measurement spoke-gauge
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
