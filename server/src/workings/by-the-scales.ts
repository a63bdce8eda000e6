import type { Step } from '../engine/derivation.ts';
import type { Expression } from '../engine/expression.ts';
import type * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { expressionText } from '../render/expression-text.ts';
import { nameOf, type Setting } from './setting.ts';
import { equal, joined, named, sideStep } from './step-parts.ts';
import type { VernierDivisions } from './vernier-rule.ts';
import { countTimes, decimalPlaces, exactValue, type Manner, plainNumber } from './written-value.ts';

/** A vernier's line in line with a mark, and between which places its zero stands. */
export interface LineInLine {
  readonly vernier: VernierDivisions;
  /** The number of the line. */
  readonly line: S.Scalar;
  /** Where the vernier's zero stands, along the scale that it slides on. */
  readonly at: Q.Quantity;
  /** From here on; before one division further. */
  readonly from: Q.Quantity;
  /** The letter for it. */
  readonly unknown: string;
}

/**
 * A position by the scales themselves: `x + 17 × V = m × S`, which mark m that is, and x as the difference.
 *
 * Holds for every vernier; one that runs backward has its lines behind its zero, so `x - k × V = m × S`. Null where m
 * is no number.
 */
export function byTheScales(
  setting: Setting,
  { vernier, line, at, from, unknown }: LineInLine,
  manner: Manner,
): { readonly steps: readonly Step[]; readonly link: Expression; readonly mark: R.Rational } | null {
  const { coarse, fine, runsBackward } = vernier;
  const along = S.multiply(line, fine.scalar);
  const meets = runsBackward ? S.subtract(at.scalar, along) : S.add(at.scalar, along);
  const quotient = S.divide(meets, coarse.scalar);
  const mark = quotient === null ? null : S.realValue(quotient);
  const number = S.realValue(line);
  if (mark === null || !R.isInteger(mark) || number === null) return null;
  const [k, S_, V_] = [plainNumber(line), nameOf(setting, vernier.base), nameOf(setting, 'vernier')];
  const kV = joined('multiply', k, V_);
  const kVValue = joined('multiply', k, exactValue(fine, manner));
  const marksValue = countTimes(S.real(mark), coarse, manner);
  // Marks are written with the places that tell them apart: 3.30 cm beside 3.35 cm.
  const atLeast = decimalPlaces(coarse, manner.unit);
  const length = (scalar: S.Scalar): Expression => exactValue({ ...coarse, scalar }, { ...manner, atLeast });
  const name = R.toFractionText(number);
  const scale = vernier.base === 'main' ? 'main scale' : `${vernier.base} scale`;
  const behind = runsBackward ? `, ${name} divisions behind its zero,` : '';
  const low = runsBackward ? S.subtract(from.scalar, along) : S.add(from.scalar, along);
  const text = (scalar: S.Scalar): string => expressionText(length(scalar));
  const place = `${text(from.scalar)} ≤ ${unknown} < ${text(S.add(from.scalar, coarse.scalar))}`;
  const meeting = `${text(low)} ≤ m × ${expressionText(S_)} < ${text(S.add(low, coarse.scalar))}`;
  const steps = [
    sideStep(
      joined(runsBackward ? 'subtract' : 'add', named(unknown), kV),
      [equal(joined('multiply', named('m'), S_))],
      `Line ${name} of the vernier${behind} is in line with mark m of the ${scale}`,
    ),
    sideStep(kV, [equal(kVValue), equal(length(along))]),
    sideStep(
      joined('multiply', named('m'), S_),
      [equal(marksValue), equal(length(meets))].filter(
        ({ value }, index) => index === 0 || expressionText(value) !== expressionText(marksValue),
      ),
      `From ${place} follows ${meeting}, and only one mark stands there`,
    ),
  ];
  const link = joined(runsBackward ? 'add' : 'subtract', marksValue, kVValue);
  return { steps, link, mark };
}
