import { asRecord } from '../as-record.ts';
import { claimFinding, claimName } from '../finding-from.ts';
import type { Rule } from '../rule.ts';

export const takenAsGiven: Rule = {
  name: 'taken-as-given',
  severity: 'warning',
  summary: 'a claim that nothing determines, read as a record',
  explanation:
    'An equals sign claims; a colon records. Where nothing else in the block determines what is claimed, it is read as given, and said, so that the work goes on. One key writes the colon.',
  example: `\`\`\`measurement spoke
instrument: screw gauge
pitch = 0.5 mm
#^^^^^^^^^^^^^ warning taken-as-given
circular scale: 50 divisions
least count = pitch / 50 = 0.01 mm
\`\`\`
`,
  fixedExample: `\`\`\`measurement spoke
instrument: screw gauge
pitch: 0.5 mm
circular scale: 50 divisions
least count = pitch / 50 = 0.01 mm
\`\`\`
`,
  run(note) {
    return note.verdicts.flatMap(verdict =>
      verdict.kind === 'assumed'
        ? [
            claimFinding(takenAsGiven, note, verdict, {
              message: `nothing in this block determines ${claimName(verdict.claim)}, so this is read as given; a colon says so`,
              fixes: [asRecord(note.text, verdict.claim)],
            }),
          ]
        : [],
    );
  },
};
