import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { divisionRatio } from '../engine/scales.ts';
import { evaluateIn } from './evaluate-in.ts';
import type { Facts } from './facts.ts';
import { division } from './facts-divisions.ts';
import type { Readings } from './measurement.ts';

/** x ≡ residue (mod modulus), in base units. */
export interface Congruence {
  readonly residue: R.Rational;
  readonly modulus: R.Rational;
}

/**
 * What a vernier's line in line says: x ≡ -k·V (mod S), because x + k·V = m·S for some mark m.
 *
 * Numbered backward x ≡ +k·V (mod S). On a screw the drum's division takes the place of S. Null where the scales
 * leave V or S open.
 */
export function congruenceOf(facts: Facts, line: S.Scalar): Congruence | null {
  const value = S.realValue(line);
  const share = S.realValue(division(facts, 'vernier') ?? S.TOO_LARGE);
  const modulus = S.realValue(division(facts, facts.scales().vernierBase) ?? S.TOO_LARGE);
  if (value === null || share === null || modulus === null || R.sign(modulus) <= 0) return null;
  const along = R.multiply(value, share);
  return { residue: facts.measurement.runsBackward ? along : R.negate(along), modulus };
}

/** How many lines the vernier has; null where that is open or in letters. */
export function lineCount(facts: Facts): number | null {
  const lines = facts.scales().vernierLines;
  const value = lines === null ? null : S.realValue(lines);
  return value === null ? null : R.toInteger(value);
}

/** Whether a reading names a line or a division that its scale does not have; such a reading has no value. */
export function namesMissingLine(facts: Facts, readings: Readings): boolean {
  const lines = lineCount(facts);
  const turn = divisionRatio(facts.scales().scales, 'rotation', 'circular');
  const drum = turn === null ? null : S.realValue(turn);
  for (const [term, reading] of readings) {
    if (reading.kind !== 'at' || reading.value.kind !== 'count') continue;
    const answer = evaluateIn(facts, reading.value.count.expression);
    const number = answer.ok ? S.realValue(answer.quantity.scalar) : null;
    if (number === null) continue;
    if (
      term === 'coinciding division' &&
      (R.sign(number) < 0 || (lines !== null && R.compare(number, R.rational(lines)) > 0))
    )
      return true;
    const isDrum =
      term === 'circular scale reading' ||
      term === 'initial circular reading' ||
      term === 'final circular reading';
    if (isDrum && (R.sign(number) < 0 || (drum !== null && R.compare(number, drum) >= 0))) return true;
  }
  return false;
}
