import type { Rule } from '../rule.ts';
import { undeterminedFindings } from '../undetermined-findings.ts';

export const undetermined: Rule = {
  name: 'undetermined',
  severity: 'error',
  summary: 'what is asked or claimed cannot be worked out; what is missing',
  explanation:
    'The block does not say enough. The message names what to record; nothing is guessed and nothing is passed over.',
  example: `\`\`\`measurement spoke
instrument: screw gauge
circular scale: 50 divisions
pitch = ?
#       ^ error undetermined
\`\`\`
`,
  fixedExample: `\`\`\`measurement spoke
instrument: screw gauge
screw: 5 rotations = 2.5 mm
circular scale: 50 divisions
pitch = ?
\`\`\`
`,
  run(note) {
    return undeterminedFindings(undetermined, note);
  },
};
