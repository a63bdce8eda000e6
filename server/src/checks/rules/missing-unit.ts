import { claimFinding, claimName, findingAt, problemFindings } from '../finding-from.ts';
import { oddRecords } from '../record-kinds.ts';
import type { Rule } from '../rule.ts';
import { behindNumber, shownUnit } from '../shown-unit.ts';

export const missingUnit: Rule = {
  name: 'missing-unit',
  severity: 'error',
  summary: 'a length or the like without its unit',
  explanation: `A reading of 2 may be two millimetres or two centimetres, and the difference is a factor of ten in all that
follows. So a bare number where a length or an angle is needed is an error. The fix offers the unit that
the rest of the block speaks in, but whether that is the right one a person decides.

Plain numbers stay plain: the coinciding division, the circular scale reading and 0 need no unit. In a
table the unit may stand in the head (\`MSR (mm)\`), and in a claim only the last link needs one:
\`1 - 0.95 = 0.05 mm\`.`,
  example: `\`\`\`measurement hub-cone
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
main scale reading: 1.45
#                   ^^^^ error missing-unit: 1.45 cm is likely meant
coinciding division: 6
\`\`\`
`,
  fixedExample: `\`\`\`measurement hub-cone
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
main scale reading: 1.45 cm
coinciding division: 6
\`\`\`
`,
  run(note) {
    const bare = note.verdicts.flatMap(verdict => {
      if (verdict.kind !== 'bare') return [];
      const behind = behindNumber(shownUnit(verdict.truth));
      const text = `${verdict.text}${behind}`;
      return [
        claimFinding(missingUnit, note, verdict, {
          message: `${claimName(note, verdict.claim)} is stated as ${verdict.text} without a unit; ${text} is likely meant`,
          stated: verdict.text,
          fixes: [
            {
              title: `Write ${text}`,
              edits: [{ span: { start: verdict.span.end, end: verdict.span.end }, newText: behind }],
              sure: false,
            },
          ],
        }),
      ];
    });
    const records = oddRecords(note).flatMap(({ kind, measurement, span, message, likely }) =>
      kind === 'bare' && likely !== null
        ? [
            findingAt(missingUnit, measurement, span, {
              message,
              fixes: [{ title: `Write ${likely}`, edits: [{ span, newText: likely }], sure: false }],
            }),
          ]
        : [],
    );
    return [...problemFindings(missingUnit, note), ...records, ...bare];
  },
};
