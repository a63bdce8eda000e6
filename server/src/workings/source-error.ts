import type { Step, StepLink } from '../engine/derivation.ts';
import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { type Unit, unitWord } from '../engine/unit.ts';
import { evaluateIn } from '../language/evaluate-in.ts';
import type { Facts } from '../language/facts.ts';
import type { ErrorRule, Stated, Subject } from '../language/measurement.ts';
import { isSymbol } from '../language/names.ts';
import { shownValue } from '../render/shown-value.ts';
import { scatterDerivation } from './derive-scatter.ts';
import type { ErrorSource, SourceMode } from './error-sources.ts';
import { putIn, putInText, typedLiteral, writtenValue } from './put-in.ts';
import { about, equal, joined, named, sideStep, written } from './step-parts.ts';
import { claimOf, nameFrom } from './subject-name.ts';

/** The error of one measured thing, as it is put into a sum of errors. */
export interface SourceError {
  /** Its value in numbers: `0.01 mm`, `0.01 mm / 2`, `0.01 mm / sqrt(3)`. */
  readonly number: Expression;
  /** `2 %`, where it was recorded as a part of the value. */
  readonly share: Expression | null;
  /** How it comes about, where it was not simply recorded. */
  readonly links: readonly StepLink[];
  /** Why it is that, as a sentence without its stop. */
  readonly reason: string;
  /** The scatter that it is made of, where the block works that out nowhere else. */
  readonly before: readonly Step[];
  /** Whether it stands in the records as it is. */
  readonly isRecorded: boolean;
}

export const PERCENT = unitWord('%')!;

/** What a part of one is multiplied by to be told in per cent. */
export const HUNDRED_PERCENT: Expression = written('100 %', Q.quantity(R.rational(100), PERCENT));

/** The name of an error in a formula: `Δm`, `Δ(mean corrected reading)`. */
export function deltaOf(name: string): string {
  return isSymbol(name) ? `Δ${name}` : `Δ(${name})`;
}

/** The name of a standard uncertainty in a formula: `u(m)`. */
export function uncertaintyOf(name: string): string {
  return `u(${name})`;
}

/** What the error of a measured thing is, and which rule says so. */
export function sourceError(facts: Facts, source: ErrorSource, mode: SourceMode): SourceError {
  const { leaf } = source;
  const stated = statedWith(leaf.facts, leaf.subject);
  if (stated !== null) return recordedError(source, stated, mode);
  const rule = leaf.facts.measurement.errorRule?.rule ?? 'least count';
  if (rule === 'mean absolute error' || rule === 'standard deviation of the mean')
    return scatterError(facts, source, rule);
  return leastCountError(facts, source, rule, mode);
}

/** The record that an error stands behind; null for readings and for what is worked out. */
function statedWith(facts: Facts, subject: ErrorSource['leaf']['subject']): Stated | null {
  const { measurement } = facts;
  if (subject.kind === 'own') {
    const record = measurement.own.get(subject.name);
    if (subject.row !== null) return measurement.rows[subject.row - 1]?.own.get(subject.name)?.stated ?? null;
    return record?.kind === 'value' ? record.given.stated : null;
  }
  if (subject.kind !== 'term') return null;
  const given = measurement.givens.get(subject.term as never) ?? measurement.givens.get('observed reading');
  return given?.stated.error == null ? null : given.stated;
}

function recordedError(source: ErrorSource, stated: Stated, mode: SourceMode): SourceError {
  const error = stated.error === null ? null : evaluateIn(source.leaf.facts, stated.error);
  const isPart = error?.ok === true && error.quantity.unit?.symbol === '%' && stated.error !== null;
  const word = mode === 'worst' ? 'error' : 'standard uncertainty';
  const reason = `the ${word} of ${source.name} was recorded with it`;
  if (!isPart || stated.error === null) {
    const value = source.leaf.facts.value(source.leaf.subject);
    const unit = value.ok ? value.quantity.unit : null;
    const plain =
      error?.ok && error.quantity.unit === null && unit !== null ? Q.withUnit(source.error, unit) : null;
    const quantity = plain ?? (error?.ok ? error.quantity : source.error);
    const number =
      (stated.error === null ? null : typedLiteral(stated.error, quantity)) ?? roundedError(quantity);
    return { number, share: null, links: [], reason, before: [], isRecorded: true };
  }
  const share =
    typedLiteral(stated.error, error.quantity) ?? written(shownValue(error.quantity), error.quantity);
  const value = putIn(source.leaf.facts, source.leaf.subject, 0);
  const product = value === null ? roundedError(source.error) : joined('multiply', share, sizeOf(value));
  return {
    number: product,
    share,
    links: [equal(product), ...exactOrAbout(source.error)],
    reason,
    before: [],
    isRecorded: true,
  };
}

/** A value without its sign. */
export function sizeOf(value: Expression): Expression {
  return value.kind === 'negate' ? value.of : value;
}

function leastCountError(facts: Facts, source: ErrorSource, rule: ErrorRule, mode: SourceMode): SourceError {
  const home = source.leaf.facts;
  const subject = { kind: 'term', term: 'least count', row: null, block: null } as const;
  const right = writtenValue(home, subject);
  const name = named(nameFrom(facts, home, subject));
  const value = right === null ? roundedError(source.error) : putInText(right.text, right.quantity);
  const isHalf = rule !== 'least count';
  const over = (top: Expression): Expression => {
    const below: Expression[] = isHalf ? [written('2', Q.plain(R.TWO))] : [];
    if (mode === 'standard') below.push(root(3), ...(source.count > 1 ? [root(source.count)] : []));
    const [first, ...others] = below;
    return first === undefined
      ? top
      : joined(
          'divide',
          top,
          others.reduce((product, part) => joined('multiply', product, part), first),
        );
  };
  const isPlain = !isHalf && mode === 'worst';
  const links = [equal(over(name)), equal(over(value)), ...(isPlain ? [] : exactOrAbout(source.error))];
  return {
    number:
      isHalf && mode === 'worst' && endsAsWritten(source.error) ? roundedError(source.error) : over(value),
    share: null,
    links,
    reason: readingReason(source, isHalf, mode),
    before: [],
    isRecorded: false,
  };
}

function readingReason({ count }: ErrorSource, isHalf: boolean, mode: SourceMode): string {
  const width = isHalf ? 'half the least count' : 'the least count';
  if (mode === 'standard') {
    const within = `within ${width} either way every value is as likely, so ${width} is divided by √3`;
    return count > 1 ? `${within}; and by √${count} for the mean of ${count} readings` : within;
  }
  return count > 1
    ? `each reading may be wrong by ${width}, and so may their mean`
    : `each reading may be wrong by ${width}`;
}

function scatterError(
  facts: Facts,
  source: ErrorSource,
  rule: 'mean absolute error' | 'standard deviation of the mean',
): SourceError {
  const { leaf } = source;
  const list = leaf.subject.kind === 'statistic' ? leaf.subject.of : leaf.subject;
  const statistic = rule === 'mean absolute error' ? rule : 'standard deviation';
  const scatter: Subject =
    list.kind === 'own'
      ? { kind: 'statistic', statistic, of: list, from: null }
      : { kind: 'term', term: statistic, row: null, block: null };
  const before = claimOf(leaf.facts, scatter) === null && leaf.facts === facts;
  const count = valueCount(leaf.facts, source);
  const isMean = leaf.subject.kind !== 'term' || leaf.subject.term.startsWith('mean');
  const isShared = rule === 'standard deviation of the mean' && isMean && count > 1;
  const over = (top: Expression): Expression => (isShared ? joined('divide', top, root(count)) : top);
  const value = leaf.facts.value(scatter);
  const single = value.ok ? roundedError(value.quantity, source.error.unit) : null;
  const numbers = isShared && single !== null ? [equal(over(single))] : [];
  return {
    number: roundedError(source.error),
    share: null,
    links: [
      equal(over(named(nameFrom(facts, leaf.facts, scatter)))),
      ...numbers,
      ...exactOrAbout(source.error),
    ],
    reason: scatterReason(rule, isShared),
    before: before ? (scatterDerivation(leaf.facts, scatter)?.steps ?? []) : [],
    isRecorded: false,
  };
}

function scatterReason(rule: ErrorRule, isShared: boolean): string {
  if (rule === 'mean absolute error')
    return 'the error rule takes how far the values lie from their mean on average';
  return isShared
    ? 'the mean of n values scatters less than a single one, by the square root of n'
    : 'a single reading scatters by the standard deviation';
}

function valueCount(facts: Facts, { leaf }: ErrorSource): number {
  const { subject } = leaf;
  const of = subject.kind === 'statistic' ? subject.of : subject;
  if (of.kind !== 'own') return facts.measurement.rows.length;
  const record = facts.measurement.own.get(of.name);
  if (record?.kind === 'list') return record.values.length;
  return facts.measurement.rows.filter(row => row.own.has(of.name)).length;
}

/** √n as a formula. */
export function root(of: number): Expression {
  return { kind: 'call', name: 'sqrt', arguments: [written(String(of), Q.plain(R.rational(of)))] };
}

/** Figures of an error that is only worked on with: one more than the result will have. */
const GUARD_FIGURES = 3;

/** An error in so many figures that a sum of such errors still comes out right. */
export function roundedError(quantity: Q.Quantity, unit: Unit | null = quantity.unit): Expression {
  return putInText(figuresText(quantity, unit), unit === null ? quantity : Q.withUnit(quantity, unit));
}

/** The value of an error as a link: exact where it ends within three figures. */
export function exactOrAbout(quantity: Q.Quantity, unit: Unit | null = quantity.unit): readonly StepLink[] {
  const value = roundedError(quantity, unit);
  return [endsAsWritten(quantity, unit) ? equal(value) : about(value)];
}

function placesOf(quantity: Q.Quantity, unit: Unit | null): number {
  const number = Q.numberIn(quantity, unit);
  return number === null || R.isZero(number) ? 0 : Math.max(0, GUARD_FIGURES - 1 - R.decimalExponent(number));
}

function figuresText(quantity: Q.Quantity, unit: Unit | null): string {
  return shownValue(quantity, { unit, atMost: placesOf(quantity, unit) });
}

function endsAsWritten(quantity: Q.Quantity, unit: Unit | null = quantity.unit): boolean {
  const scalar = (unit && Q.inUnit(quantity, unit)) ?? quantity.scalar;
  const number = S.realValue(scalar);
  const needed = number === null ? null : R.terminatingPlaces(number);
  return number === null || (S.isExact(scalar) && needed !== null && needed <= placesOf(quantity, unit));
}

/** How the errors of readings come about, one line for all readings of a block; recorded errors need none. */
export function ruleSteps(
  facts: Facts,
  sources: readonly ErrorSource[],
  mode: SourceMode,
  symbol: (name: string) => string,
): readonly Step[] {
  const done = new Set<string>();
  const told = new Set<string>();
  return sources.flatMap(source => {
    const error = sourceError(facts, source, mode);
    const key = `${source.leaf.facts.index} ${error.reason} ${error.isRecorded ? source.name : ''}`;
    if (error.links.length === 0 || done.has(key)) return [];
    done.add(key);
    const alike = sources.filter(
      other => other.leaf.facts === source.leaf.facts && Q.equals(other.error, source.error),
    );
    const isShared = !error.isRecorded && alike.length > 1;
    const left = isShared
      ? `${mode === 'worst' ? 'error' : 'uncertainty'} of each reading`
      : symbol(source.name);
    const reason = error.isRecorded || told.has(error.reason) ? null : error.reason;
    told.add(error.reason);
    return [...error.before, sideStep(named(left), error.links, reason)];
  });
}
