import { questionFindings } from '../question-findings.ts';
import type { Rule } from '../rule.ts';

export const severalRightOptions: Rule = {
  name: 'several-right-options',
  severity: 'error',
  summary: 'more than one choice is right',
  explanation: `Two choices that both agree with the value that the records give leave students to guess which one is
meant. It happens where one choice is another in a different unit, or the same value rounded to fewer
places. Change one of them, or let the key name them all: \`answer = A, B\`.`,
  example: `\`\`\`measurement new-gauge
instrument: screw gauge
pitch: 0.5 mm
circular scale: 50 divisions
linear scale reading: 3.5 mm
circular scale reading: 21
find: observed reading
option A: 3.71 mm
option B: 0.371 cm
answer = A
#        ^ error several-right-options: A and B
\`\`\`
`,
  fixedExample: `\`\`\`measurement new-gauge
instrument: screw gauge
pitch: 0.5 mm
circular scale: 50 divisions
linear scale reading: 3.5 mm
circular scale reading: 21
find: observed reading
option A: 3.71 mm
option B: 0.321 cm
answer = A
\`\`\`
`,
  run(note) {
    return questionFindings(severalRightOptions, note, 'several-right-options');
  },
};
