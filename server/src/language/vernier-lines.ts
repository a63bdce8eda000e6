import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import type { Facts } from './facts.ts';
import { division } from './facts-divisions.ts';

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
