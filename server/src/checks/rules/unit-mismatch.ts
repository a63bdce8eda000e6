import { dimensionText } from '../../engine/dimension.ts';
import { claimFinding, claimName, findingAt, problemFindings } from '../finding-from.ts';
import type { Rule } from '../rule.ts';
import { troubleText } from '../trouble-text.ts';

export const unitMismatch: Rule = {
  name: 'unit-mismatch',
  severity: 'error',
  summary: 'quantities of different kinds are added or compared',
  explanation:
    'Centimetres cannot be added to degrees, and a density cannot be stated in centimetres. The kinds of both sides are named.',
  example: `\`\`\`measurement odd-sum
m: 12.0 g
d: 2.00 cm
sum s = m + d = 14.0 g
#       ^^^^^ error unit-mismatch
\`\`\`
`,
  run(note) {
    const kinds = note.verdicts.flatMap(verdict => {
      if (verdict.kind === 'other-kind') {
        const { stated, truth } = verdict;
        return [
          claimFinding(unitMismatch, note, verdict, {
            message: `${claimName(verdict.claim)} is ${dimensionText(truth.dimension)}, but this link is ${dimensionText(stated.dimension)}`,
          }),
        ];
      }
      if (
        verdict.kind === 'lack' &&
        verdict.lack.kind === 'trouble' &&
        verdict.lack.trouble.kind === 'mismatch'
      ) {
        const span = verdict.lack.span ?? verdict.span;
        return [
          claimFinding(
            unitMismatch,
            note,
            { ...verdict, span },
            { message: troubleText(verdict.lack.trouble) },
          ),
        ];
      }
      return [];
    });
    const scales = note.facts.blocks.flatMap(facts =>
      facts.scales().troubles.flatMap(trouble => {
        const span = facts.scales().spans[trouble.source];
        if (trouble.kind !== 'mismatch' || span === undefined) return [];
        return [
          findingAt(unitMismatch, facts.measurement, span, {
            message:
              'these scales are lengths in one line and angles in another, so they cannot belong to one instrument',
          }),
        ];
      }),
    );
    return [...problemFindings(unitMismatch, note), ...kinds, ...scales];
  },
};
