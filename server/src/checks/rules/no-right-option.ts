import { questionFindings } from '../question-findings.ts';
import type { Rule } from '../rule.ts';

export const noRightOption: Rule = {
  name: 'no-right-option',
  severity: 'error',
  summary: 'no choice is right',
  explanation: `Where no choice agrees with the value that the records give, and none says \`none of these\`, nobody can
answer. Either a choice has a mistake or a record has: the message says what the records give. It stands at
the key, or without a key at the last choice.`,
  example: `\`\`\`measurement old-gauge
instrument: screw gauge
pitch: 0.5 mm
circular scale: 50 divisions
closed: circular zero above the line, division 46
linear scale reading: 3.5 mm
circular scale reading: 21
find: corrected reading
option A: 3.71 mm
option B: 3.67 mm
answer = B
#        ^ error no-right-option: 3.75 mm
\`\`\`
`,
  fixedExample: `\`\`\`measurement old-gauge
instrument: screw gauge
pitch: 0.5 mm
circular scale: 50 divisions
closed: circular zero above the line, division 46
linear scale reading: 3.5 mm
circular scale reading: 21
find: corrected reading
option A: 3.71 mm
option B: 3.75 mm
answer = B
\`\`\`
`,
  run(note) {
    return questionFindings(noRightOption, note, 'no-right-option');
  },
};
