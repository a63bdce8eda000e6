import { claimFinding, claimName, problemFindings } from '../finding-from.ts';
import type { Rule } from '../rule.ts';
import { shownUnit } from '../shown-unit.ts';

export const missingUnit: Rule = {
  name: 'missing-unit',
  severity: 'error',
  summary: 'a length or the like without its unit',
  explanation:
    'A reading of 2 may be two millimetres or two centimetres, so a bare number where a length is needed is an error. The fix offers the unit that the rest of the block speaks in; a person decides.',
  example: `\`\`\`measurement hub-axle
instrument: vernier calipers
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
main scale reading: 2.45
#                   ^^^^ error missing-unit
coinciding division: 17
\`\`\`
`,
  fixedExample: `\`\`\`measurement hub-axle
instrument: vernier calipers
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
main scale reading: 2.45 cm
coinciding division: 17
\`\`\`
`,
  run(note) {
    const bare = note.verdicts.flatMap(verdict => {
      if (verdict.kind !== 'bare') return [];
      const unit = shownUnit(verdict.truth);
      const text = `${verdict.text} ${unit}`;
      return [
        claimFinding(missingUnit, note, verdict, {
          message: `${claimName(verdict.claim)} is stated as ${verdict.text} without a unit; ${text} is likely meant`,
          stated: verdict.text,
          fixes: [
            {
              title: `Write ${text}`,
              edits: [{ span: { start: verdict.span.end, end: verdict.span.end }, newText: ` ${unit}` }],
              sure: false,
            },
          ],
        }),
      ];
    });
    return [...problemFindings(missingUnit, note), ...bare];
  },
};
