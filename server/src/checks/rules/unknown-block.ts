import { problemFindings } from '../finding-from.ts';
import type { Rule } from '../rule.ts';

export const unknownBlock: Rule = {
  name: 'unknown-block',
  severity: 'error',
  summary: 'a reference to no block, row or quantity of the note',
  explanation:
    'References never leave a note. A name behind "of" must be a row of this block, a quantity, or a block of the same note.',
  example: `\`\`\`measurement ball
D: mean corrected reading of bearing-bal
#  ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error unknown-block
\`\`\`
`,
  run(note) {
    return problemFindings(unknownBlock, note);
  },
};
