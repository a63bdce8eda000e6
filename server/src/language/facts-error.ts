import { derivative, type PowersCount } from '../engine/derivative.ts';
import { sameDimension } from '../engine/dimension.ts';
import { namesIn } from '../engine/evaluation.ts';
import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { unitWord } from '../engine/unit.ts';
import { type Answer, computed, lacking, missing, REPORTED } from './answer.ts';
import { evaluateIn } from './evaluate-in.ts';
import { type Facts, subjectText } from './facts.ts';
import { definitionExpression, definitionOf } from './facts-own.ts';
import { type ErrorMode, type Leaf, leafError } from './leaf-error.ts';
import { relativeByPowers } from './leaf-powers.ts';
import type { Subject } from './measurement.ts';
import { subjectKey } from './names.ts';

/** How a value changes with each independent thing that was measured: ∂f/∂x by leaf. */
export type Gradient = ReadonlyMap<string, { readonly leaf: Leaf; readonly slope: Q.Quantity }>;

type GradientAnswer =
  | { readonly ok: true; readonly gradient: Gradient }
  | { readonly ok: false; readonly answer: Answer };

const NONE: GradientAnswer = { ok: true, gradient: new Map() };

const MOST_LEAVES = 2000;

/** The absolute, relative and percentage error, the uncertainties and the percentage difference of another subject. */
export function errorValue(facts: Facts, subject: Extract<Subject, { readonly kind: 'statistic' }>): Answer {
  switch (subject.statistic) {
    case 'absolute error':
      return totalError(facts, subject.of, 'worst');
    case 'relative error':
      return relativeError(facts, subject.of);
    case 'percentage error': {
      const relative = relativeError(facts, subject.of);
      return relative.ok ? computed(Q.withUnit(relative.quantity, PERCENT)) : relative;
    }
    case 'standard uncertainty':
      return totalError(facts, subject.of, 'standard');
    case 'expanded uncertainty': {
      const standard = totalError(facts, subject.of, 'standard');
      if (!standard.ok) return standard;
      const factor = facts.measurement.coverageFactor;
      const by = factor === null ? computed(Q.plain(R.TWO)) : evaluateIn(facts, factor.expression);
      return by.ok ? fromOutcome(Q.multiply(standard.quantity, by.quantity), standard.quantity) : by;
    }
    case 'percentage difference':
      return percentageDifference(facts, subject);
    case 'mean':
    case 'mean absolute error':
    case 'standard deviation':
      return REPORTED;
  }
}

const PERCENT = unitWord('%')!;

function percentageDifference(
  facts: Facts,
  subject: Extract<Subject, { readonly kind: 'statistic' }>,
): Answer {
  if (subject.from === null)
    return missing('a percentage difference needs the accepted value: write from and the value behind it');
  const value = centreOf(facts, subject.of);
  const accepted = evaluateIn(facts, subject.from);
  if (!value.ok) return value;
  if (!accepted.ok) return accepted;
  const difference = Q.subtract(value.quantity, accepted.quantity);
  const share = difference.ok ? Q.divide(difference.quantity, accepted.quantity) : difference;
  const size = share.ok ? Q.abs(share.quantity) : share;
  return size.ok
    ? computed(Q.withUnit(size.quantity, PERCENT))
    : lacking({ kind: 'trouble', trouble: size.trouble, span: null });
}

/** The value that an error belongs to: of a list or a column its mean. */
function centreOf(facts: Facts, of: Subject): Answer {
  if (of.kind === 'own' && of.row === null && of.block === null) {
    const isList =
      facts.measurement.own.get(of.name)?.kind === 'list' || facts.measurement.columns.has(of.name);
    if (isList) return facts.value({ kind: 'statistic', statistic: 'mean', of, from: null });
  }
  return facts.value(of);
}

/** The worst case (sum of |∂f/∂x|·Δx) or the root of the sum of squares (GUM clause 5) of a subject's errors. */
export function totalError(facts: Facts, of: Subject, mode: ErrorMode): Answer {
  const value = centreOf(facts, of);
  if (!value.ok) return value;
  const terms = errorTerms(facts, of, mode);
  if (!terms.ok) return terms.answer;
  let sum: Q.Quantity | null = null;
  for (const { size } of terms.terms) {
    const part = mode === 'standard' ? Q.multiply(size, size) : ({ ok: true, quantity: size } as Q.Outcome);
    const total: Q.Outcome = part.ok && sum !== null ? Q.add(sum, part.quantity) : part;
    if (!total.ok) return lacking({ kind: 'trouble', trouble: total.trouble, span: null });
    sum = total.quantity;
  }
  if (sum === null) return computed({ ...value.quantity, scalar: S.NOUGHT });
  const total = mode === 'standard' ? Q.sqrt(sum) : ({ ok: true, quantity: sum } as Q.Outcome);
  return fromOutcome(total, value.quantity);
}

function fromOutcome(outcome: Q.Outcome, like: Q.Quantity): Answer {
  if (!outcome.ok) return lacking({ kind: 'trouble', trouble: outcome.trouble, span: null });
  const plainAngle = Q.angleFree(outcome.quantity);
  const fitting = sameDimension(outcome.quantity.dimension, like.dimension) ? outcome.quantity : plainAngle;
  return computed(like.unit === null ? fitting : Q.withUnit(fitting, like.unit));
}

/** One measured thing's share of an error: |∂f/∂x|·Δx. */
export interface ErrorTerm {
  readonly leaf: Leaf;
  readonly slope: Q.Quantity;
  readonly error: Q.Quantity;
  readonly size: Q.Quantity;
}

/** The errors of a subject, one for each measured thing that it rests on. */
export function errorTerms(
  facts: Facts,
  of: Subject,
  mode: ErrorMode,
  powers: PowersCount = 'count',
):
  | { readonly ok: true; readonly terms: readonly ErrorTerm[] }
  | { readonly ok: false; readonly answer: Answer } {
  const gradient = gradientOf(facts, of, powers);
  if (!gradient.ok) return gradient;
  const terms: ErrorTerm[] = [];
  for (const { leaf, slope } of gradient.gradient.values()) {
    const error = leafError(leaf, mode);
    if (!error.ok) return { ok: false, answer: error };
    if (S.isZero(error.quantity.scalar)) continue;
    const product = Q.multiply(slope, error.quantity);
    const size = product.ok ? Q.abs(product.quantity) : product;
    if (!size.ok)
      return { ok: false, answer: lacking({ kind: 'trouble', trouble: size.trouble, span: null }) };
    terms.push({ leaf, slope, error: error.quantity, size: size.quantity });
  }
  return { ok: true, terms };
}

/** Error / |value|; for a product of powers of things without values the sum of |power| × relative error. */
function relativeError(facts: Facts, of: Subject): Answer {
  const value = centreOf(facts, of);
  if (!value.ok && value.lack.kind === 'two-readings') return REPORTED;
  const inLetters = !value.ok || S.realValue(value.quantity.scalar) === null;
  if (inLetters) {
    const byPowers = relativeByPowers(facts, of);
    if (byPowers !== null) return byPowers;
  }
  if (!value.ok) return value;
  const total = totalError(facts, of, 'worst');
  if (!total.ok) return total;
  const share = Q.divide(total.quantity, value.quantity);
  const size = share.ok ? Q.abs(Q.angleFree(share.quantity)) : share;
  return size.ok
    ? computed({ ...size.quantity, unit: null })
    : lacking({ kind: 'trouble', trouble: size.trouble, span: null });
}

/** What tells measured values apart throughout a note. */
export function leafKey(leaf: Leaf): string {
  return `${leaf.facts.index}:${subjectKey(leaf.subject)}`;
}

/** The block that a subject belongs to, and the subject as that block calls it. */
export function ownerOf(facts: Facts, subject: Subject): { facts: Facts; subject: Subject } | null {
  if (subject.kind === 'statistic') {
    const inner = ownerOf(facts, subject.of);
    return inner && { facts: inner.facts, subject: { ...subject, of: inner.subject } };
  }
  if (subject.kind === 'unknown') return null;
  if (subject.block === null) return { facts, subject };
  const other = facts.note.named(subject.block);
  return other && { facts: other, subject: { ...subject, block: null } };
}

/** The formula that a subject is worked out by; null for what was measured, given or counted. */
export function formulaOf(facts: Facts, subject: Subject): Expression | null {
  if (subject.kind !== 'own' || subject.row !== null) return null;
  const record = facts.measurement.own.get(subject.name);
  if (record?.kind === 'value') {
    return namesIn(record.given.stated.expression).size > 0 ? record.given.stated.expression : null;
  }
  if (record !== undefined) return null;
  const definition = definitionOf(facts, subject.name);
  return definition && definitionExpression(facts, definition);
}

/** ∂(subject)/∂x for every measured thing x that it rests on, by the chain rule. */
export function gradientOf(
  facts: Facts,
  of: Subject,
  powers: PowersCount = 'count',
  depth = 0,
): GradientAnswer {
  if (depth > 20) return NONE;
  const owner = ownerOf(facts, of);
  if (owner === null) return { ok: false, answer: REPORTED };
  const { subject } = owner;
  const inner = owner.facts;
  const spread = spreadOf(inner, subject);
  if (spread !== null) return spread;
  const formula = formulaOf(inner, subject);
  if (formula === null) {
    const leaf: Leaf = { facts: inner, subject };
    return { ok: true, gradient: new Map([[leafKey(leaf), { leaf, slope: Q.plain(R.ONE) }]]) };
  }
  const total = new Map<string, { leaf: Leaf; slope: Q.Quantity }>();
  for (const key of namesIn(formula)) {
    const named = inner.measurement.subjects.get(key);
    const slope = derivative(formula, key, powers);
    if (named === undefined || slope === null)
      return {
        ok: false,
        answer: missing(
          `the error of ${subjectText(subject)} cannot be worked out: ${key} has no derivative there`,
        ),
      };
    const value = evaluateIn(inner, slope);
    if (!value.ok) return { ok: false, answer: value };
    if (S.isZero(value.quantity.scalar)) continue;
    const below = gradientOf(inner, named, powers, depth + 1);
    if (!below.ok) return below;
    for (const [name, part] of below.gradient) {
      const product = Q.multiply(value.quantity, part.slope);
      const before = total.get(name);
      const sum: Q.Outcome =
        product.ok && before !== undefined ? Q.add(before.slope, product.quantity) : product;
      if (!sum.ok)
        return { ok: false, answer: lacking({ kind: 'trouble', trouble: sum.trouble, span: null }) };
      total.set(name, { leaf: part.leaf, slope: sum.quantity });
    }
    if (total.size > MOST_LEAVES)
      return {
        ok: false,
        answer: lacking({
          kind: 'limit',
          message: `an error may rest on ${MOST_LEAVES} measured values at most`,
        }),
      };
  }
  return { ok: true, gradient: total };
}

/** A mean rests on its rows, unless the error rule speaks of the mean itself. */
function spreadOf(facts: Facts, subject: Subject): GradientAnswer | null {
  if (
    subject.kind !== 'term' ||
    (subject.term !== 'mean observed reading' && subject.term !== 'mean corrected reading')
  )
    return null;
  const rule = facts.measurement.errorRule?.rule ?? 'least count';
  const { rows } = facts.measurement;
  if (rule === 'mean absolute error' || rule === 'standard deviation of the mean' || rows.length === 0)
    return null;
  const gradient = new Map<string, { leaf: Leaf; slope: Q.Quantity }>();
  const share = Q.plain(R.rational(1, rows.length));
  for (const row of rows) {
    const leaf: Leaf = {
      facts,
      subject: { kind: 'term', term: 'observed reading', row: row.number, block: null },
    };
    gradient.set(leafKey(leaf), { leaf, slope: share });
  }
  return { ok: true, gradient };
}
