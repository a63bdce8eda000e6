import { problemFindings } from '../finding-from.ts';
import type { Rule } from '../rule.ts';

export const unknownBlock: Rule = {
  name: 'unknown-block',
  severity: 'error',
  summary: 'a reference to no block, row or quantity of the note',
  explanation: `Behind \`of\` stands a row of the same table by its label, a quantity, or another block of the same note by
its name. Where nothing of the kind is there, nothing can be taken from it, and what rests on it stays
open. References never leave the note; a value from elsewhere is recorded where it is used.`,
  example: `\`\`\`measurement bearing-ball
instrument: screw gauge
pitch: 0.5 mm
circular scale: 50 divisions
| LSR    | CSR | observed reading |
|--------|-----|------------------|
| 6.0 mm | 17  | 6.17 mm          |
| 6.0 mm | 19  | 6.19 mm          |
\`\`\`

\`\`\`measurement ball-volume
D: mean observed reading of bearing-bal
#  ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error unknown-block: no block of this note
\`\`\`
`,
  fixedExample: `\`\`\`measurement bearing-ball
instrument: screw gauge
pitch: 0.5 mm
circular scale: 50 divisions
| LSR    | CSR | observed reading |
|--------|-----|------------------|
| 6.0 mm | 17  | 6.17 mm          |
| 6.0 mm | 19  | 6.19 mm          |
\`\`\`

\`\`\`measurement ball-volume
D: mean observed reading of bearing-ball
volume v = pi D^3 / 6 = 123.6 mm^3
\`\`\`
`,
  run(note) {
    return problemFindings(unknownBlock, note);
  },
};
