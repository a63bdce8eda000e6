import type { RightValue } from '../checks/right-value.ts';
import type { Derivation, Step, StepLink } from '../engine/derivation.ts';
import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import type { Facts } from '../language/facts.ts';
import type { Subject } from '../language/measurement.ts';
import { bestLink } from './checked-link.ts';
import { localDerivation } from './derive-at-home.ts';
import { differenceSteps } from './derive-difference.ts';
import { letterSteps } from './derive-letter-error.ts';
import { deriveMean } from './derive-mean.ts';
import { errorPlan } from './error-plan.ts';
import { type ErrorSource, errorSources, type SourceMode } from './error-sources.ts';
import { centreOf, putIn, resultLink, writtenValue } from './put-in.ts';
import {
  deltaOf,
  exactOrAbout,
  HUNDRED_PERCENT,
  roundedError,
  ruleSteps,
  sizeOf,
  sourceError,
} from './source-error.ts';
import { claimStep, equal, joined, named, written } from './step-parts.ts';
import { claimOf, fullNameIn, nameIn, titleOf } from './subject-name.ts';
import type { Deriving } from './working.ts';

type Statistic = Extract<Subject, { readonly kind: 'statistic' }>;

/**
 * Errors and uncertainties term by term, as a textbook adds them up, with the rule that each of them comes from.
 *
 * In the worst case the sum of |∂f/∂x|·Δx; for uncertainties the root of the sum of squares. Null where the block does
 * not determine them.
 */
export function deriveError(deriving: Deriving, subject: Subject): Derivation | null {
  if (subject.kind !== 'statistic') return null;
  switch (subject.statistic) {
    case 'mean':
    case 'mean absolute error':
    case 'standard deviation':
      return deriveMean(deriving, subject);
    default:
      return localDerivation(deriving, subject, (facts, local) => {
        const right = writtenValue(facts, local);
        if (local.kind !== 'statistic' || right === null) return null;
        const steps = stepsOf(facts, local, right);
        return steps && { title: titleOf(facts, local), steps };
      });
  }
}

function stepsOf(facts: Facts, subject: Statistic, right: RightValue): readonly Step[] | null {
  switch (subject.statistic) {
    case 'percentage difference':
      return differenceSteps(facts, subject, right);
    case 'expanded uncertainty':
      return expandedSteps(facts, subject, right);
    case 'standard uncertainty':
      return errorSteps(facts, subject, right, 'standard');
    default:
      return letterSteps(facts, subject, right) ?? errorSteps(facts, subject, right, 'worst');
  }
}

/** The steps to an error, a relative error or a standard uncertainty. */
function errorSteps(
  facts: Facts,
  subject: Statistic,
  right: RightValue,
  mode: SourceMode,
): readonly Step[] | null {
  const { of } = subject;
  const sources = errorSources(facts, of, mode);
  if (sources === null) return null;
  const claim = (links: readonly (Expression | null)[], reason: string | null = null): Step =>
    claimStep(
      named(fullNameIn(facts, subject)),
      [...links.filter(link => link !== null).map(link => equal(link)), resultLink(right)],
      reason,
    );
  const [only] = sources;
  if (only === undefined) return [claim([], nothingWrong(facts, of))];
  const isShare = subject.statistic === 'relative error' || subject.statistic === 'percentage error';
  const inPercent = subject.statistic === 'percentage error';
  if (sources.length === 1 && isItself(facts, of, only))
    return ownErrorSteps(facts, subject, right, only, mode);
  const plan = errorPlan(facts, of, mode, sources, isShare ? 'relative' : 'absolute');
  if (isShare && plan.kind === 'relative')
    return [...plan.steps, claim([bestLink(facts, subject, right, guard => plan.numbers(guard, inPercent))])];
  if (isShare) {
    const absolute = withValue(facts, of, plan.steps, plan.numbers(0, false));
    return [...absolute, claim([quotientLink(facts, subject, right, inPercent)])];
  }
  const build = (guard: number): Expression | null => {
    const numbers = plan.numbers(guard, false);
    if (numbers === null || plan.kind === 'absolute') return numbers;
    const value = putIn(facts, centreOf(facts, of), guard);
    return value && joined('multiply', sizeOf(value), numbers);
  };
  return [...plan.steps, claim([bestLink(facts, subject, right, build)])];
}

function nothingWrong(facts: Facts, of: Subject): string {
  return `nothing that ${nameIn(facts, of)} rests on was recorded with an error, so it counts as exact`;
}

/** Whether the only source of an error is the value itself: a record, a reading, another name for one. */
function isItself(facts: Facts, of: Subject, { leaf, slope }: ErrorSource): boolean {
  const value = facts.value(centreOf(facts, of));
  const source = leaf.facts.value(centreOf(leaf.facts, leaf.subject));
  const one = Q.plainNumber(slope);
  return (
    one !== null && R.equals(one, R.ONE) && value.ok && source.ok && Q.equals(value.quantity, source.quantity)
  );
}

/** `absolute error of m = 0.01 g`, `percentage error of m = 0.01 g / 1.06 g × 100 % ≈ 0.94 %`. */
function ownErrorSteps(
  facts: Facts,
  subject: Statistic,
  right: RightValue,
  source: ErrorSource,
  mode: SourceMode,
): readonly Step[] {
  const error = sourceError(facts, source, mode);
  const left = named(fullNameIn(facts, subject));
  const result = resultLink(right);
  if (subject.statistic === 'absolute error' || subject.statistic === 'standard uncertainty') {
    const leading = error.links.filter(({ value }) => value.kind !== 'literal');
    return [...error.before, claimStep(left, [...leading, result], error.reason)];
  }
  const inPercent = subject.statistic === 'percentage error';
  if (error.share !== null) return [claimStep(left, [result], error.reason)];
  const build = (guard: number): Expression | null => {
    const value = putIn(facts, centreOf(facts, subject.of), guard);
    return value && inHundredths(joined('divide', error.number, sizeOf(value)), inPercent);
  };
  const link = bestLink(facts, subject, right, build);
  const rule = error.isRecorded || link === null ? [] : ruleSteps(facts, [source], mode, deltaOf);
  const reason = rule.length > 0 ? null : error.reason;
  return [...rule, claimStep(left, [...(link === null ? [] : [equal(link)]), result], reason)];
}

function inHundredths(share: Expression, inPercent: boolean): Expression {
  return inPercent ? joined('multiply', share, HUNDRED_PERCENT) : share;
}

/** The absolute error over the value: `0.02 mm / 1.82 mm × 100 %`. */
function quotientLink(
  facts: Facts,
  subject: Statistic,
  right: RightValue,
  inPercent: boolean,
): Expression | null {
  const total = facts.value({ kind: 'statistic', statistic: 'absolute error', of: subject.of, from: null });
  if (!total.ok) return null;
  return bestLink(facts, subject, right, guard => {
    const value = putIn(facts, centreOf(facts, subject.of), guard);
    return value && inHundredths(joined('divide', roundedError(total.quantity), sizeOf(value)), inPercent);
  });
}

/** The steps to an absolute error with its value at their end, where the error itself is not claimed. */
function withValue(
  facts: Facts,
  of: Subject,
  steps: readonly Step[],
  numbers: Expression | null,
): readonly Step[] {
  const last = steps[steps.length - 1];
  const total = facts.value({ kind: 'statistic', statistic: 'absolute error', of, from: null });
  if (last?.kind !== 'line' || !total.ok) return steps;
  const end = exactOrAbout(total.quantity);
  const links: StepLink[] = [...last.links, ...(numbers === null ? [] : [equal(numbers)])];
  const isThere = links[links.length - 1]?.value.kind === 'literal';
  return [...steps.slice(0, -1), { ...last, links: isThere ? links : [...links, ...end] }];
}

/** The standard uncertainty, where the block does not work it out itself, times the coverage factor. */
function expandedSteps(facts: Facts, subject: Statistic, right: RightValue): readonly Step[] | null {
  const standard = { ...subject, statistic: 'standard uncertainty', from: null } as const;
  const value = writtenValue(facts, standard);
  if (value === null) return null;
  const before = claimOf(facts, standard) === null ? errorSteps(facts, standard, value, 'standard') : [];
  const { coverageFactor } = facts.measurement;
  const factor = facts.value(subject);
  const times = factor.ok ? Q.divide(factor.quantity, value.quantity) : null;
  const number = times?.ok ? S.realValue(times.quantity.scalar) : null;
  const text = coverageFactor?.expression.kind === 'literal' ? coverageFactor.expression.text : '2';
  const by = number === null ? null : written(text, Q.plain(number));
  const link =
    by &&
    bestLink(facts, subject, right, guard => {
      const put = putIn(facts, standard, guard);
      return put && joined('multiply', by, put);
    });
  const reason =
    coverageFactor === null
      ? 'no coverage factor is recorded, so it is 2'
      : 'the standard uncertainty times the coverage factor';
  const links = link === null ? [] : [equal(link)];
  return [
    ...(before ?? []),
    claimStep(named(fullNameIn(facts, subject)), [...links, resultLink(right)], reason),
  ];
}
