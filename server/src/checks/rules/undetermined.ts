import type { Rule } from '../rule.ts';
import { undeterminedFindings } from '../undetermined-findings.ts';

export const undetermined: Rule = {
  name: 'undetermined',
  severity: 'error',
  summary: 'what is asked or claimed cannot be worked out; what is missing',
  explanation: `The block does not say enough to settle what is asked or claimed. The message names what to record;
nothing is guessed, and nothing is passed over in silence.

A corrected reading is the commonest case: without a word about the closed instrument its zero error is
unknown, not nought. Where the zeros coincide, \`closed: zeros coincide\` says so.`,
  example: `\`\`\`measurement rear-hub
main scale: 1 mm = 1 MSD
vernier scale: 20 VSD = 19 MSD
main scale reading: 31 mm
coinciding division: 4
corrected reading = 31.20 mm
#                   ^^^^^^^^ error undetermined: closed: zeros coincide
\`\`\`
`,
  fixedExample: `\`\`\`measurement rear-hub
main scale: 1 mm = 1 MSD
vernier scale: 20 VSD = 19 MSD
closed: zeros coincide
main scale reading: 31 mm
coinciding division: 4
corrected reading = 31.20 mm
\`\`\`
`,
  run(note) {
    return undeterminedFindings(undetermined, note);
  },
};
