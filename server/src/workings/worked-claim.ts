import { isReading } from '../checks/agreement.ts';
import { type RightValue, rightValue } from '../checks/right-value.ts';
import type { Step, StepLink } from '../engine/derivation.ts';
import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import type { Unit } from '../engine/unit.ts';
import { unitWord } from '../engine/unit.ts';
import type { Facts } from '../language/facts.ts';
import { readingsOf } from '../language/facts-position.ts';
import type { Claim, RowNumber, Subject } from '../language/measurement.ts';
import { labelKey, subjectKey } from '../language/names.ts';
import type { DivisionTerm, ObservableTerm } from '../language/term-names.ts';
import { shownValue } from '../render/shown-value.ts';
import { type Setting, termValue } from './setting.ts';
import { about, claimStep, equal, named, written } from './step-parts.ts';
import { decimalPlaces, exactValue, isSexagesimal, type Manner } from './written-value.ts';

const DEGREE = unitWord('deg')!;

/** A claim of a subject: its formula, the numbers put in, the result; what only repeats the link before is left out. */
export function workedClaim(
  setting: Setting,
  subject: Subject,
  links: readonly Expression[],
  reason: string | null = null,
): Step {
  const all = [...links.map(link => equal(link)), ...resultLinks(setting, subject)];
  return claimStep(
    subjectExpression(setting.facts, subject),
    all.filter((link, index) => !isRepeated(link.value, all[index + 1]?.value ?? null)),
    reason,
  );
}

/** A value that the next link only says again, maybe with more places. */
function isRepeated(value: Expression, next: Expression | null): boolean {
  return value.kind === 'literal' && next?.kind === 'literal' && Q.equals(value.quantity, next.quantity);
}

/** How the value of a subject is written: as a claim of the block writes it, else in the unit that it comes out in. */
export function mannerOf(setting: Setting, subject: Subject): Manner {
  const { facts, sexagesimal } = setting;
  const claim = claimedManner(facts, subject);
  const answer = facts.value(subject);
  const unit = claim?.unit ?? (answer.ok ? answer.quantity.unit : null) ?? facts.scales().unit;
  return { unit, sexagesimal: claim?.sexagesimal ?? sexagesimal };
}

function claimedManner(facts: Facts, subject: Subject): Manner | null {
  for (const claim of claimsBySubject(facts).get(subjectKey(subject)) ?? []) {
    const last = claim.links.findLast(({ content }) => content.kind === 'stated');
    if (last?.content.kind !== 'stated' || !last.content.stated.isValue) continue;
    const answer = literalOf(last.content.stated.expression);
    if (answer?.unit == null) continue;
    const { text } = last.content.stated;
    return {
      unit: answer.unit,
      sexagesimal: answer.dimension.angle === 1 && /[′″'"]|arc|min|sec/.test(text),
    };
  }
  return null;
}

/** The claims of a block about each subject. */
function claimsBySubject(facts: Facts): ReadonlyMap<string, readonly Claim[]> {
  const before = claims.get(facts);
  if (before !== undefined) return before;
  const found = new Map<string, Claim[]>();
  for (const claim of facts.measurement.claims) {
    const key = subjectKey(claim.subject);
    const others = found.get(key);
    if (others === undefined) found.set(key, [claim]);
    else others.push(claim);
  }
  claims.set(facts, found);
  return found;
}

const claims = new WeakMap<Facts, ReadonlyMap<string, readonly Claim[]>>();

function literalOf(expression: Expression): Q.Quantity | null {
  if (expression.kind === 'negate') return literalOf(expression.of);
  return expression.kind === 'literal' ? expression.quantity : null;
}

/** The right value at the end of a chain; where its decimals never end, the fraction before it. */
function resultLinks(setting: Setting, subject: Subject): readonly StepLink[] {
  const { unit, sexagesimal } = mannerOf(setting, subject);
  const right = rightValue(setting.facts, subject, unit, sexagesimal);
  if (right === null) return [];
  const value = withPlaces(setting, subject, right, sexagesimal);
  if (!right.isRounded || (sexagesimal && isSexagesimal(right.quantity))) return [equal(value)];
  const exact = exactValue(right.quantity, { unit: right.unit, sexagesimal: false });
  const isShort = exact.kind === 'measured' && exact.of.kind === 'literal' && exact.of.text.length <= LONGEST;
  if (!isShort) return [about(value)];
  // Divisions and least counts are used further down, where only the fraction is exact.
  if (isStep(subject)) return [equal(exact)];
  // Of a mean of zero checks nobody wants the fraction.
  return endsInDecimals(setting.facts) ? [about(value)] : [equal(exact), about(value)];
}

/** What is read off the scales shows the places of its least count: `-0.20 mm`. */
function withPlaces(
  { facts }: Setting,
  subject: Subject,
  right: RightValue,
  sexagesimal: boolean,
): Expression {
  const isSigned = subject.kind === 'term' && /^zero /.test(subject.term);
  const isShare = subject.kind === 'term' && subject.term === 'vernier scale reading';
  // Whole degrees still show that minutes were read.
  if (sexagesimal && isReading(subject) && /^-?\d+°$/.test(right.text) && readsMinutes(facts))
    return written(`${right.text} 0′`, right.quantity);
  if (sexagesimal || right.isRounded || S.isZero(right.quantity.scalar) || !(isSigned || isShare))
    return written(right.text, right.quantity);
  const atLeast = leastPlaces(facts, right.unit);
  const text = shownValue(right.quantity, { unit: right.unit, signed: isSigned, atLeast });
  return written(text, right.quantity);
}

function readsMinutes(facts: Facts): boolean {
  const least = termValue(facts, 'least count');
  const degrees = least === null ? null : Q.inUnit(least, DEGREE);
  return degrees !== null && S.compare(degrees, S.UNITY) === -1;
}

/** How many decimal places show the least count in a unit; none where it has no end. */
export function leastPlaces(facts: Facts, unit: Unit | null): number {
  const least = termValue(facts, 'least count');
  return least === null ? 0 : decimalPlaces(least, unit);
}

function endsInDecimals(facts: Facts): boolean {
  const least = termValue(facts, 'least count');
  const real = least === null ? null : S.realValue(least.scalar);
  return real !== null && R.terminatingPlaces(real) !== null;
}

/** Fractions of more signs say nothing to a reader. */
const LONGEST = 9;

function isStep(subject: Subject): boolean {
  return (
    subject.kind === 'division' ||
    (subject.kind === 'term' && (subject.term === 'least count' || subject.term === 'pitch'))
  );
}

/** The left side of a claim: `observed reading of outside`, `1 VSD`. */
function subjectExpression(facts: Facts, subject: Subject): Expression {
  switch (subject.kind) {
    case 'division':
      return {
        kind: 'multiply',
        left: written('1', Q.plain(R.ONE)),
        right: named(SHORT_DIVISION[subject.division]),
      };
    case 'term':
      return named(subject.row === null ? subject.term : `${subject.term} of ${rowName(facts, subject.row)}`);
    default:
      return named(subjectKey(subject));
  }
}

const SHORT_DIVISION: Readonly<Record<DivisionTerm, string>> = {
  'main scale division': 'MSD',
  'vernier scale division': 'VSD',
  'linear scale division': 'LSD',
  'circular scale division': 'CSD',
  rotation: 'rotation',
};

/** A row by its label where that can stand in a claim, else by its number. */
function rowName(facts: Facts, row: number): string {
  const { rows } = facts.measurement;
  const label = rows[row - 1]?.label ?? null;
  const isPlain =
    label !== null &&
    /^[A-Za-z]{3,}(?:[ -][A-Za-z0-9]+){0,3}$/.test(label) &&
    !/\bof\b/.test(label) &&
    rows.filter(other => other.label !== null && labelKey(other.label) === labelKey(label)).length === 1;
  return isPlain ? label : `row ${row}`;
}

export function titleOf(facts: Facts, subject: Subject): string {
  const text =
    subject.kind === 'division'
      ? subject.division
      : subject.kind === 'term'
        ? `${subject.term}${subject.row === null ? '' : ` of ${rowName(facts, subject.row)}`}`
        : '';
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** How many decimal places a mark was recorded with, in a unit: one for `6.0 mm`. */
export function recordedPlaces(
  facts: Facts,
  term: ObservableTerm,
  row: RowNumber,
  unit: Unit | null,
): number {
  const observation = readingsOf(facts, row).get(term);
  const observed =
    observation?.kind === 'at' ? observation.value : observation?.kind === 'between' ? observation.low : null;
  if (observed?.kind !== 'length' || observed.stated.expression.kind !== 'literal' || unit === null) return 0;
  const { place } = observed.stated.expression;
  const step = place === null ? null : R.divide(place, unit.factor);
  const places = step === null ? null : R.terminatingPlaces(step);
  return places === null || places > 6 ? 0 : places;
}
