import type { Step } from '../engine/derivation.ts';
import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import type { Facts } from '../language/facts.ts';
import type { Subject } from '../language/measurement.ts';
import { slopeReason, slopeSteps, symbolOf, together } from './error-slopes.ts';
import { type ErrorSource, exactNames, isLinear, type SourceMode } from './error-sources.ts';
import { centreOf, overCount, putIn } from './put-in.ts';
import { exactOrAbout, HUNDRED_PERCENT, PERCENT, ruleSteps, sizeOf, sourceError } from './source-error.ts';
import { equal, joined, named, sideStep, written } from './step-parts.ts';
import { nameIn } from './subject-name.ts';

/** How the errors of several measured things make up the error of a result. */
export interface ErrorPlan {
  /** Whether `numbers` is a part of the value or the error itself. */
  readonly kind: 'relative' | 'absolute';
  /** What leads to it: the rule of each error, the formula, its terms one by one. */
  readonly steps: readonly Step[];
  /** The formula with numbers in it, the values with so many guard places; null where it is told in a table. */
  numbers(guard: number, inPercent: boolean): Expression | null;
}

/** The way that a textbook takes: by powers for a product, by the terms for a sum, else by slopes. */
export function errorPlan(
  facts: Facts,
  of: Subject,
  mode: SourceMode,
  sources: readonly ErrorSource[],
  wanted: 'relative' | 'absolute',
): ErrorPlan {
  const byPowers = isByPowers(facts, of, mode, sources);
  const linear = isLinear(facts, of) && sources.every(({ slope }) => factorOf(slope) !== null);
  if (byPowers && !(linear && wanted === 'absolute')) return powerPlan(facts, of, mode, sources);
  return linear ? sumPlan(facts, of, mode, sources) : slopePlan(facts, of, mode, sources);
}

/** Whether the shares of a product of powers, |power| × Δx/x, make up the error. */
function isByPowers(facts: Facts, of: Subject, mode: SourceMode, sources: readonly ErrorSource[]): boolean {
  const statistic = mode === 'worst' ? 'absolute error' : 'standard uncertainty';
  const truth = facts.value({ kind: 'statistic', statistic, of, from: null });
  const value = facts.value(centreOf(facts, of));
  if (!truth.ok || !value.ok) return false;
  let sum = Q.plain(R.ZERO);
  for (const { power, leaf, error } of sources) {
    const part = leaf.facts.value(centreOf(leaf.facts, leaf.subject));
    const share = part.ok ? Q.divide(error, part.quantity) : null;
    if (power === null || !share?.ok) return false;
    const weighed = Q.multiply(share.quantity, Q.plain(power));
    const term =
      weighed.ok && mode === 'standard'
        ? Q.multiply(weighed.quantity, weighed.quantity)
        : weighed.ok
          ? Q.abs(weighed.quantity)
          : weighed;
    const total = term.ok ? Q.add(sum, term.quantity) : term;
    if (!total.ok) return false;
    sum = total.quantity;
  }
  const relative = mode === 'standard' ? Q.sqrt(sum) : ({ ok: true, quantity: sum } as const);
  const product = relative.ok ? Q.multiply(relative.quantity, value.quantity) : relative;
  const size = product.ok ? Q.abs(product.quantity) : product;
  return size.ok && S.equals(size.quantity.scalar, truth.quantity.scalar);
}

function powerPlan(facts: Facts, of: Subject, mode: SourceMode, sources: readonly ErrorSource[]): ErrorPlan {
  const symbol = symbolOf(mode);
  const name = nameIn(facts, of);
  const numbers = (guard: number, inPercent: boolean): Expression | null => {
    const terms = sources.map(source => shareInNumbers(facts, source, mode, guard));
    if (terms.some(term => term === null)) return null;
    const known = terms.filter(term => term !== null);
    return inPercent
      ? percentOf(mode, known)
      : together(
          mode,
          known.map(({ part }) => part),
        );
  };
  const formula = together(
    mode,
    sources.map(source => weighedShare(source, named(symbol(source.name)), named(source.name))),
  );
  const left = joined('divide', named(symbol(name)), named(name));
  const reason = reasonOf(facts, of, mode, sources.length, powerReason(mode, sources));
  return {
    kind: 'relative',
    steps: [
      ...ruleSteps(facts, sources, mode, symbol),
      sideStep(left, [equal(formula)], reason),
      ...(sources.length > 1 && mode === 'worst' ? shareSteps(facts, sources, mode) : []),
    ],
    numbers,
  };
}

function powerReason(mode: SourceMode, sources: readonly ErrorSource[]): string | null {
  const isPlain = sources.every(({ power }) => power !== null && R.equals(R.abs(power), R.ONE));
  if (mode === 'standard') {
    const powers = isPlain ? '' : ', each times its power,';
    return sources.length > 1
      ? `in a product or a quotient the squares of the relative uncertainties${powers} are added, since independent errors partly cancel`
      : null;
  }
  if (sources.length === 1)
    return isPlain ? null : 'the relative error of a power is as many times that of its base';
  return `in a product or a quotient the relative errors add up${isPlain ? '' : ', each as many times as its power says'}`;
}

/** `3 × ΔD / D`. */
function weighedShare({ power }: ErrorSource, error: Expression, value: Expression): Expression {
  return joined('divide', times(R.abs(power ?? R.ONE), error), value);
}

function times(factor: R.Rational, of: Expression): Expression {
  if (R.equals(factor, R.ONE)) return of;
  return joined('multiply', written(R.toFractionText(factor), Q.plain(factor)), of);
}

interface Share {
  readonly part: Expression;
  /** Recorded as a part of the value already: `2 %`. */
  readonly isShare: boolean;
}

function shareInNumbers(facts: Facts, source: ErrorSource, mode: SourceMode, guard: number): Share | null {
  const { number, share } = sourceError(facts, source, mode);
  if (share !== null) return { part: times(R.abs(source.power ?? R.ONE), share), isShare: true };
  const value = putIn(source.leaf.facts, centreOf(source.leaf.facts, source.leaf.subject), guard);
  return value && { part: weighedShare(source, number, sizeOf(value)), isShare: false };
}

/** `(0.01 g / 1.06 g + 3 × 0.01 mm / 6.38 mm) × 100 %`; what was recorded in per cent stays so. */
function percentOf(mode: SourceMode, shares: readonly Share[]): Expression {
  if (shares.every(({ isShare }) => isShare))
    return together(
      mode,
      shares.map(({ part }) => part),
    );
  if (shares.every(({ isShare }) => !isShare))
    return joined(
      'multiply',
      together(
        mode,
        shares.map(({ part }) => part),
      ),
      HUNDRED_PERCENT,
    );
  return together(
    mode,
    shares.map(({ part, isShare }) => (isShare ? part : joined('multiply', part, HUNDRED_PERCENT))),
  );
}

/** Each term by itself, in per cent, so that one sees which weighs most. */
function shareSteps(facts: Facts, sources: readonly ErrorSource[], mode: SourceMode): readonly Step[] {
  return sources.flatMap(source => {
    const { share } = sourceError(facts, source, mode);
    const numbers = shareInNumbers(facts, source, mode, 0);
    const value = source.leaf.facts.value(centreOf(source.leaf.facts, source.leaf.subject));
    const part = value.ok ? Q.divide(source.error, value.quantity) : null;
    const weighed = part?.ok ? Q.multiply(part.quantity, Q.plain(R.abs(source.power ?? R.ONE))) : null;
    const size = weighed?.ok ? Q.abs(weighed.quantity) : null;
    if (share !== null || numbers === null || !size?.ok) return [];
    const left = weighedShare(source, named(symbolOf(mode)(source.name)), named(source.name));
    return [sideStep(left, [equal(numbers.part), ...exactOrAbout(size.quantity, PERCENT)])];
  });
}

/** A factor of a sum that can be written down: 1, 1/2, 3; null for one with a unit or without an end. */
function factorOf(slope: Q.Quantity): R.Rational | null {
  const value = Q.plainNumber(slope);
  return value !== null && S.isExact(slope.scalar) ? R.abs(value) : null;
}

function sumPlan(facts: Facts, of: Subject, mode: SourceMode, sources: readonly ErrorSource[]): ErrorPlan {
  const symbol = symbolOf(mode);
  const factors = sources.map(({ slope }) => factorOf(slope) ?? R.ONE);
  const sum = (terms: readonly Expression[]): Expression => {
    const [first = R.ONE] = factors;
    const isCommon = terms.length > 1 && factors.every(factor => R.equals(factor, first));
    if (isCommon) return weighed(first, together(mode, terms));
    return together(
      mode,
      terms.map((term, index) => weighed(factors[index] ?? R.ONE, term)),
    );
  };
  const formula = sum(sources.map(source => named(symbol(source.name))));
  const inNumbers = sum(sources.map(source => sourceError(facts, source, mode).number));
  const why =
    sources.length === 1
      ? null
      : mode === 'worst'
        ? 'the errors of a sum add up, and those of a difference as well'
        : 'independent errors partly cancel, so their squares are added';
  return {
    kind: 'absolute',
    steps: [
      ...ruleSteps(facts, sources, mode, symbol),
      sideStep(
        named(symbol(nameIn(facts, of))),
        [equal(formula)],
        reasonOf(facts, of, mode, sources.length, why),
      ),
    ],
    numbers: () => inNumbers,
  };
}

/** `(Δa + Δb) / 2`, `3 × Δa`. */
function weighed(factor: R.Rational, of: Expression): Expression {
  const below = R.reciprocal(factor);
  const whole = below === null ? null : R.toInteger(below);
  return whole !== null && whole > 1 ? overCount(of, whole) : times(factor, of);
}

/** For all other formulas: the slope against each measured thing, and its share. */
function slopePlan(facts: Facts, of: Subject, mode: SourceMode, sources: readonly ErrorSource[]): ErrorPlan {
  const reason = reasonOf(facts, of, mode, sources.length, slopeReason(nameIn(facts, of), mode));
  return { kind: 'absolute', steps: slopeSteps(facts, of, mode, sources, reason), numbers: () => null };
}

/** A reason with what counts as exact behind it. */
function reasonOf(
  facts: Facts,
  of: Subject,
  mode: SourceMode,
  count: number,
  reason: string | null,
): string | null {
  const names = exactNames(facts, of, mode).slice(0, MOST_NAMED);
  if (names.length === 0 || count === 0) return reason;
  const all =
    names.length === 1 ? names[0]! : `${names.slice(0, -1).join(', ')} and ${names[names.length - 1]}`;
  const exact = `${all} ${names.length === 1 ? 'was' : 'were'} recorded without an error and ${names.length === 1 ? 'counts' : 'count'} as exact`;
  return reason === null ? exact : `${reason}; ${exact}`;
}

const MOST_NAMED = 4;
