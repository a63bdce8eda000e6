import { combined, dimensionText, NAMED_DIMENSIONS, sameDimension } from '../../engine/dimension.ts';
import type { Quantity } from '../../engine/quantity.ts';
import { unitShown } from '../../engine/unit.ts';
import { tokenize } from '../../language/lexer.ts';
import { unitLikeTwo } from '../../language/units-together.ts';
import { claimFinding, claimName, findingAt, problemFindings } from '../finding-from.ts';
import { oddRecords } from '../record-kinds.ts';
import { recordLacks } from '../record-lacks.ts';
import type { Rule } from '../rule.ts';
import { troubleText } from '../trouble-text.ts';

export const unitMismatch: Rule = {
  name: 'unit-mismatch',
  severity: 'error',
  summary: 'quantities of different kinds are added or compared',
  explanation: `Grams cannot be added to centimetres, and a density is no length. Where a sum, a difference or a
comparison joins two kinds of quantity, at least one of them is not what the line takes it for; a square
or a division is often missing. The message names both kinds.

Different units of one kind are no trouble: millimetres and inches are converted exactly.`,
  example: `\`\`\`measurement pedal-crank
m: 412 g
v: 152 cm^3
density rho = m / v = 2.71 g
#                     ^^^^^^ error unit-mismatch
\`\`\`
`,
  fixedExample: `\`\`\`measurement pedal-crank
m: 412 g
v: 152 cm^3
density rho = m / v = 2.71 g/cm^3
\`\`\`
`,
  run(note) {
    const kinds = note.verdicts.flatMap(verdict => {
      if (verdict.kind === 'other-kind') {
        const { stated, truth, span } = verdict;
        const like = unitLikeTwo(tokenize(note.text.slice(span.start, span.end), span.start).tokens);
        const isMeant =
          like !== null && sameDimension(combined(stated.dimension, like.gain, 1), truth.dimension);
        const said = `${claimName(note, verdict.claim)} is ${kindText(truth)}, but this link is ${kindText(stated)}`;
        return [
          claimFinding(unitMismatch, note, verdict, {
            message: isMeant ? `${said}; with a space, ${like.apart}, it is that` : said,
            fixes: isMeant ? [{ ...like.fix, sure: true }] : [],
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
    const scales = note.facts.blocks().flatMap(facts =>
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
    const formulas = recordLacks(note).flatMap(({ measurement, span, lack }) =>
      lack.kind === 'trouble' && lack.trouble.kind === 'mismatch'
        ? [findingAt(unitMismatch, measurement, lack.span ?? span, { message: troubleText(lack.trouble) })]
        : [],
    );
    const records = oddRecords(note).flatMap(({ kind, measurement, span, message }) =>
      kind === 'mismatch' ? [findingAt(unitMismatch, measurement, span, { message })] : [],
    );
    return [...problemFindings(unitMismatch, note), ...formulas, ...records, ...kinds, ...scales];
  },
};

/** `a volume`, and where the trade has no word for the kind `a quantity in cm^2/h`. */
function kindText({ dimension, unit }: Quantity): string {
  const isNamed = NAMED_DIMENSIONS.some(named => sameDimension(named.dimension, dimension));
  return isNamed || unit === null ? dimensionText(dimension) : `a quantity in ${unitShown(unit)}`;
}
