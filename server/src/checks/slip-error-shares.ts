import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import type { SlipErrorTerm } from '../engine/slips/slip.ts';
import type { Facts } from '../language/facts.ts';
import { type ErrorTerm, errorTerms, leafKey } from '../language/facts-error.ts';
import { leafError } from '../language/leaf-error.ts';
import { type LeafPower, leafPowers } from '../language/leaf-powers.ts';
import type { Subject } from '../language/measurement.ts';

/** What each measured thing has a share in the worst-case error of a subject with, for the slips that go wrong in it. */
export function errorShares(facts: Facts, of: Subject): readonly SlipErrorTerm[] {
  const terms = errorTerms(facts, of, 'worst');
  const powers = leafPowers(facts, of, 0);
  if (!terms.ok) return powers === null ? [] : relativeShares([...powers.values()]);
  return powers === null
    ? sharesOfSum(facts, of, terms.terms)
    : terms.terms.map(({ leaf, size }) => shareOf(size, powers.get(leafKey(leaf))?.power ?? null));
}

/** The shares of letters under a root, which have no size but as parts of the whole. */
function relativeShares(powers: readonly LeafPower[]): readonly SlipErrorTerm[] {
  return powers.flatMap(({ leaf, power }) => {
    const error = leafError(leaf, 'relative');
    if (!error.ok) return [];
    const scalar = S.multiply(error.quantity.scalar, S.real(R.abs(power)));
    return [shareOf({ ...error.quantity, scalar, unit: null }, power)];
  });
}

function shareOf(size: SlipErrorTerm['size'], power: R.Rational | null): SlipErrorTerm {
  const inverse = power && R.reciprocal(R.abs(power));
  const once = inverse === null ? size : { ...size, scalar: S.multiply(size.scalar, S.real(inverse)) };
  return { size, power, once };
}

/** In a sum or a difference a power counts for its own part only, as in π (D² - d²)/4. */
function sharesOfSum(facts: Facts, of: Subject, terms: readonly ErrorTerm[]): readonly SlipErrorTerm[] {
  const without = errorTerms(facts, of, 'worst', 'are left out');
  const left = without.ok ? new Map(without.terms.map(({ leaf, size }) => [leafKey(leaf), size])) : null;
  return terms.map(({ leaf, size }) => ({ size, power: null, once: left?.get(leafKey(leaf)) ?? size }));
}
