import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import type { Unit } from '../engine/unit.ts';
import { isAboutFormula } from '../language/claim.ts';
import type { Facts } from '../language/facts.ts';
import type { Claim, Measurement, RowNumber, Subject } from '../language/measurement.ts';
import type { Fix, Problem } from '../language/problem.ts';
import type { RuleName } from '../language/rule-names.ts';
import type { Span } from '../language/syntax.ts';
import { shownValue } from '../render/shown-value.ts';
import { comparable, isError, isExactTerm, isReading, owner, type StatedValue } from './agreement.ts';
import type { Finding, Severity } from './finding.ts';
import { placesAsFine, wantedPlaces } from './judge-places.ts';
import type { NoteCheck } from './note-check.ts';
import { asTypedFraction } from './typed-fraction.ts';
import { isTenfold } from './typed-number.ts';
import type { Verdict } from './verdict.ts';

interface RuleHead {
  readonly name: RuleName;
  readonly severity: Severity;
}

/** What a rule adds to a place to make a finding of it. */
export interface Said {
  readonly message: string;
  readonly stated?: string | null;
  readonly computed?: string | null;
  readonly slip?: string | null;
  readonly cause?: Span | null;
  readonly related?: Finding['related'];
  readonly fixes?: readonly Fix[];
  readonly term?: string | null;
  readonly row?: number | string | null;
}

/** A finding of a block at a place. */
export function findingAt(rule: RuleHead, measurement: Measurement | null, span: Span, said: Said): Finding {
  return {
    rule: rule.name,
    severity: rule.severity,
    message: said.message,
    span,
    block: measurement?.name ?? null,
    term: said.term ?? null,
    row: said.row ?? null,
    stated: said.stated ?? null,
    computed: said.computed ?? null,
    slip: said.slip ?? null,
    cause: said.cause ?? null,
    related: said.related ?? [],
    fixes: said.fixes ?? [],
    waived: null,
  };
}

/** The findings of a rule whose problems an earlier stage has already put into words. */
export function problemFindings(rule: RuleHead, note: NoteCheck): readonly Finding[] {
  const findings = (problems: readonly Problem[], measurement: Measurement | null): readonly Finding[] =>
    problems
      .filter(problem => problem.rule === rule.name)
      .map(({ span, message, fixes, related }) =>
        findingAt(rule, measurement, span, { message, fixes, related: related ?? [] }),
      );
  return [
    ...findings(note.problems, null),
    ...note.measurements.flatMap(measurement => findings(measurement.problems, measurement)),
  ];
}

/** A finding about a link of a claim, with the claim's term and row. */
export function claimFinding(rule: RuleHead, note: NoteCheck, verdict: Verdict, said: Said): Finding {
  const measurement = note.measurements[verdict.block] ?? null;
  const { claim } = verdict;
  const named = blockOfSubject(claim.subject);
  const finding = findingAt(rule, measurement, verdict.span, {
    term: termText(claim.subject),
    row: measurement === null ? null : rowText(note, verdict.block, claim.subject),
    ...said,
  });
  return finding.block === null && named !== null ? { ...finding, block: named } : finding;
}

function blockOfSubject(subject: Subject): string | null {
  if (subject.kind === 'statistic') return blockOfSubject(subject.of);
  return subject.kind === 'unknown' ? null : subject.block;
}

/** What a link says, as typed; of a statement that is read as its fix would write it the link's own words. */
export function statedText(note: NoteCheck, verdict: Verdict): string {
  const content = verdict.link?.content;
  if (verdict.claim.mended && content?.kind === 'stated') return content.stated.text;
  return note.text.slice(verdict.span.start, verdict.span.end);
}

/** Where the value of a link stands, without the error behind it: what a fix may replace. */
export function valueSpan(verdict: Verdict): Span {
  const content = verdict.link?.content;
  if (content?.kind !== 'stated' || content.stated.error === null) return verdict.span;
  return content.stated.spans.get(content.stated.expression) ?? verdict.span;
}

/** A subject as programs get it: `observed reading`, `percentage error of rho`, `D`. */
export function termText(subject: Subject): string {
  switch (subject.kind) {
    case 'term':
      return subject.term;
    case 'division':
      return subject.division;
    case 'count':
      return 'N';
    case 'own':
      return subject.name;
    case 'statistic':
      return `${subject.statistic} of ${termText(subject.of)}`;
    case 'unknown':
      return subject.word;
  }
}

/** The label of a subject's row, else its number; null for no row. */
function rowText(note: NoteCheck, block: number, subject: Subject): number | string | null {
  const row = rowNumber(subject);
  if (row === null) return null;
  const facts = note.facts.block(block);
  const home = facts === undefined ? null : owner(facts, subject);
  return home?.measurement.rows[row - 1]?.label ?? row;
}

function rowNumber(subject: Subject): RowNumber {
  if (subject.kind === 'statistic') return rowNumber(subject.of);
  return subject.kind === 'term' || subject.kind === 'own' ? subject.row : null;
}

/** A claim's subject in a sentence: `the observed reading of row 2`, `rho`, `the percentage error of rho`. */
export function claimName(note: NoteCheck, claim: Claim): string {
  const { subject } = claim;
  if (claim.times !== null) return claim.subjectText;
  if (subject.kind === 'own') return claim.symbol === null ? subject.name : claim.subjectText;
  if (subject.kind === 'statistic') {
    const of = claimName(note, { ...claim, symbol: null, subject: subject.of });
    return `the ${subject.statistic} of ${of}`;
  }
  const row = rowNumber(subject);
  if (row === null) return `the ${termText(subject)}`;
  const facts = note.facts
    .blocks()
    .find(({ measurement }) => measurement.claims.some(other => other.span === claim.span));
  const label = facts === undefined ? null : owner(facts, subject)?.measurement.rows[row - 1]?.label;
  return `the ${termText(subject)} of ${label ?? `row ${row}`}`;
}

/** Whether angles of a claim are written in minutes and seconds: here, or in its other links where no unit says else. */
function usesMinutes(facts: Facts, claim: Claim, text: string): boolean {
  const { links } = claim;
  // `1° = 100′` asks for minutes.
  if (isAboutFormula(claim) && /^[-+\d. ]+[′″'"]$/.test(text)) return false;
  if (MINUTES.test(text) || (facts.scales().dimension?.angle === 1 && !/\./.test(text))) return true;
  return links.some(({ content }) => content.kind === 'stated' && MINUTES.test(content.stated.text));
}

const MINUTES = /[′″'"]|\barcmin\b|\barcsec\b|\bmin\b/;

/**
 * The right value as it would be written in the place of what is stated: a reading with the places of its least count,
 * the rest with the places stated, what is exact with those that it needs as far as the data carry them, all with a
 * power of ten or as a fraction where that is so, and never the same text as the wrong one.
 */
export function rightText(
  facts: Facts,
  claim: Claim,
  right: Q.Quantity,
  stated: StatedValue,
  text: string,
): string {
  const truth = comparable(right, stated.quantity)?.truth ?? right;
  const { unit } = stated.quantity;
  const { subject } = claim;
  const signed =
    subject.kind === 'term' && (subject.term === 'zero error' || subject.term === 'zero correction');
  const tenfold = isTenfold(text);
  const least = leastPlaces(facts, subject, unit);
  const written = isExactTerm(subject) ? null : statedPlaces(stated);
  const show = (atMost: number | undefined): string =>
    shownValue(truth, {
      unit,
      signed,
      tenfold,
      halves: facts.measurement.halves,
      sexagesimal: usesMinutes(facts, claim, text),
      ...(least !== null
        ? { atLeast: least }
        : written !== null && (tenfold || written > 0)
          ? { atLeast: Math.min(written, atMost ?? written) }
          : {}),
      ...(atMost === undefined ? {} : { atMost }),
    });
  const fraction = asTypedFraction(truth, stated.quantity, text);
  if (fraction !== null) return signed && S.sign(truth.scalar) === 1 ? `+${fraction}` : fraction;
  if (least !== null) return show(least + 1);
  if (written === null) return show(undefined);
  const places = placesLike(facts, subject, truth, stated, { written, tenfold });
  for (let more = 0; more <= MOST_MORE_PLACES; more++) {
    const shown = show(places + more);
    if (shown !== text && !/^[-+]?0(?:\.0*)?(?!\.?\d)/.test(shown)) return shown;
  }
  return show(undefined);
}

/** The places of a right value: those of the stated one, those that an exact one needs, and no noughts that nobody knows. */
function placesLike(
  facts: Facts,
  subject: Subject,
  truth: Q.Quantity,
  stated: StatedValue,
  { written, tenfold }: { readonly written: number; readonly tenfold: boolean },
): number {
  const { unit } = stated.quantity;
  const figures = figurePlaces(truth, stated);
  const places = Math.max(written, figures === null ? written : tenfold ? figures : Math.max(0, figures));
  const most = wantedPlaces(facts, subject, unit, truth)?.most ?? null;
  // A quantity of one's own is shown in full as far as the data carry it; of no other is a half rounded away that may go
  // either way.
  const needed = neededPlaces(truth, unit);
  const isCarried = most !== null && subject.kind === 'own';
  // In the middle of two is what has one place more, and twice it has not.
  const twice = neededPlaces({ ...truth, scalar: S.multiply(truth.scalar, S.real(R.TWO)) }, unit);
  const isHalf =
    needed === places + 1 && (twice ?? needed) <= places && facts.measurement.halves === 'either';
  if (needed !== null && needed <= (most ?? MOST_EXACT_PLACES) && (isCarried || isHalf))
    return Math.max(places, needed);
  // A right error has no more figures than an error may have, however many are stated.
  const isRightError = isError(subject) && !S.equals(truth.scalar, stated.quantity.scalar);
  return most !== null && (tenfold || most < 0 || isRightError) ? Math.min(places, most) : places;
}

/** An exact value for which the data set no end is written in full up to so many places. */
const MOST_EXACT_PLACES = 6;

/** The places that write an exact value in full; null for one that has no end, or is inexact. */
function neededPlaces(truth: Q.Quantity, unit: Unit | null): number | null {
  const number = (unit === null ? null : Q.inUnit(truth, unit)) ?? truth.scalar;
  const real = S.isExact(number) ? S.realValue(number) : null;
  return real === null ? null : R.terminatingPlaces(real);
}

/** As many figures as are stated, so that a value of another size does not shrink to one digit; null for nought. */
function figurePlaces(truth: Q.Quantity, { quantity, place }: StatedValue): number | null {
  const number = quantity.unit === null ? truth.scalar : (Q.inUnit(truth, quantity.unit) ?? truth.scalar);
  const right = S.realValue(number);
  const stated = S.realValue(quantity.scalar);
  const last = place === null || stated === null ? null : R.divide(stated, place);
  if (right === null || R.isZero(right) || last === null || R.isZero(last)) return null;
  const figures = Math.min(R.decimalExponent(last) + 1, MOST_FIGURES);
  return figures - 1 - R.decimalExponent(right);
}

const MOST_FIGURES = 6;

/** So many places are added at most to tell a right value from a wrong one. */
const MOST_MORE_PLACES = 8;

function leastPlaces(facts: Facts, subject: Subject, unit: Unit | null): number | null {
  const isMean =
    subject.kind === 'term' && subject.term.startsWith('mean ') && subject.term.endsWith('reading');
  if (!isReading(subject) && !isMean) return null;
  const least = owner(facts, subject)?.term('least count');
  if (least === undefined || !least.ok) return null;
  const number = unit === null ? least.quantity.scalar : Q.inUnit(least.quantity, unit);
  const real = number === null ? null : S.realValue(number);
  if (real === null || R.sign(real) <= 0) return null;
  const places = R.terminatingPlaces(real);
  return places !== null && places <= MOST_LEAST_PLACES ? places : placesAsFine(real);
}

/** A least count with more places than these is as good as one that does not end. */
const MOST_LEAST_PLACES = 6;

function statedPlaces({ place, quantity }: StatedValue): number | null {
  if (place === null) return null;
  const one = quantity.unit === null ? place : R.divide(place, quantity.unit.factor);
  return one === null ? null : -R.decimalExponent(one);
}
