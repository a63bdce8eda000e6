import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import type { Facts } from '../language/facts.ts';
import { readingsOf } from '../language/facts-position.ts';
import type { RowNumber, Subject } from '../language/measurement.ts';
import { subjectKey } from '../language/names.ts';
import { divisionSource } from './division-source.ts';
import { ROWS_IN_FULL } from './other-rows.ts';
import { divisionSubject, termSubject } from './setting.ts';
import { vernierDivisions, vernierRule } from './vernier-rule.ts';

/**
 * What a worked solution of a block shows, in the order of teaching: the scales, the least count, the zero, the
 * readings, their means, what is made of them.
 *
 * What a question does not need is left out, and divisions that everybody sees (1 cm = 10 MSD). All that the block
 * claims or asks for is in it.
 */
export function workedSubjects(facts: Facts): readonly Subject[] {
  const { measurement } = facts;
  const asked = [
    ...measurement.claims.map(claim => claim.subject),
    ...(measurement.question.find === null ? [] : [measurement.question.find.subject]),
  ];
  const keys = new Set(asked.map(subjectKey));
  const wanted = (subject: Subject): boolean => keys.has(subjectKey(subject));
  const needs = neededFor(facts);
  const inOrder: Subject[] = [
    ...scaleSubjects(facts, wanted),
    ...(needs.zero || wanted(ERROR) ? [ERROR] : []),
    ...(wanted(CORRECTION) ? [CORRECTION] : []),
    ...(needs.readings ? readingSubjects(facts, wanted, needs.zero) : []),
  ];
  const isEarly = new Set(inOrder.map(subjectKey));
  // Rows beyond the first few stand in a table of the first row's working.
  const late = asked.filter(
    subject => !isEarly.has(subjectKey(subject)) && !(isRowReading(subject) && tooManyRows(facts)),
  );
  return unique([
    ...inOrder,
    ...shownByReading(facts, late),
    ...late.filter(isReadingLike),
    ...meanSubjects(facts, needs.readings, keys),
    ...late,
  ]);
}

const ERROR = termSubject('zero error');
const CORRECTION = termSubject('zero correction');

/** A question about the least count needs no reading, one about the zero error neither. */
function neededFor(facts: Facts): { readonly zero: boolean; readonly readings: boolean } {
  const find = facts.measurement.question.find?.subject ?? null;
  if (find?.kind === 'division') return { zero: false, readings: false };
  if (find?.kind !== 'term') return { zero: true, readings: true };
  switch (find.term) {
    case 'pitch':
    case 'least count':
      return { zero: false, readings: false };
    case 'zero error':
    case 'zero correction':
      return { zero: true, readings: false };
    case 'observed reading':
    case 'vernier scale reading':
    case 'mean observed reading':
      return { zero: false, readings: true };
    default:
      return { zero: true, readings: true };
  }
}

function scaleSubjects(facts: Facts, wanted: (subject: Subject) => boolean): readonly Subject[] {
  const { hasCircular, vernierBase } = facts.scales();
  const main = divisionSubject('main scale division');
  const vernier = divisionSubject('vernier scale division');
  const linear = divisionSubject('linear scale division');
  const circular = divisionSubject('circular scale division');
  const pitch = termSubject('pitch');
  const least = termSubject('least count');
  const chosen: readonly (readonly [Subject, boolean])[] = [
    [main, !hasCircular && !isPlainDivision(facts, 'main')],
    [linear, hasCircular && countsLinear(facts)],
    [pitch, hasCircular && !isPlainDivision(facts, 'rotation')],
    [circular, hasCircular && vernierBase === 'circular'],
    [vernier, needsVernierDivision(facts)],
    [least, hasScales(facts) && !readByMarkAlone(facts)],
  ];
  return chosen.filter(([subject, isShown]) => isShown || wanted(subject)).map(([subject]) => subject);
}

function hasScales(facts: Facts): boolean {
  const { hasCircular, hasVernier } = facts.scales();
  return hasCircular || hasVernier;
}

/** Recorded for one division, or ten of them, where nobody needs the quotient written out. */
function isPlainDivision(facts: Facts, division: 'main' | 'rotation'): boolean {
  const source = divisionSource(facts, division);
  if (source === null) return true;
  if (source.kind !== 'length') return source.kind === 'given';
  const count = S.realValue(source.count);
  const places = count === null ? null : R.numerator(count);
  return division === 'main'
    ? count !== null && R.isInteger(count) && (places === 1n || places === 10n)
    : S.equals(source.count, S.UNITY);
}

/** Whether a mark was recorded as a count of linear divisions whose length is not plain. */
function countsLinear(facts: Facts): boolean {
  const { readings, rows } = facts.measurement;
  const counts = [readings, ...rows.map(row => row.readings)].some(observed => {
    const mark = observed.get('linear scale reading') ?? observed.get('main scale reading');
    if (mark?.kind !== 'at' || mark.value.kind !== 'count') return false;
    return mark.value.division === null || mark.value.division === 'linear scale division';
  });
  const source = counts ? divisionSource(facts, 'linear') : null;
  return source !== null && !(source.kind === 'length' && S.equals(source.count, S.UNITY));
}

/** V stands in the least count or the reading, and is more than nine tenths of a division. */
function needsVernierDivision(facts: Facts): boolean {
  const vernier = vernierDivisions(facts);
  if (vernier === null) return false;
  const number = vernier.lines === null ? null : S.realValue(vernier.lines);
  const isTenth = number !== null && R.equals(number, R.TEN) && vernierRule(facts) !== 'odd';
  const fine = S.realValue(vernier.fine.scalar);
  const ends = fine !== null && R.terminatingPlaces(fine) !== null;
  const isOdd = vernierRule(facts) === 'odd' || readByMarkAlone(facts);
  return isOdd || (!isTenth && (ends || vernier.fine.dimension.angle === 1));
}

function readByMarkAlone(facts: Facts): boolean {
  return facts.measurement.rows.length === 0 && readingsOf(facts, null).has('coinciding main mark');
}

function readingSubjects(
  facts: Facts,
  wanted: (subject: Subject) => boolean,
  corrects: boolean,
): readonly Subject[] {
  const { rows } = facts.measurement;
  const shown: readonly RowNumber[] =
    rows.length === 0 ? [null] : rows.length > ROWS_IN_FULL ? [1] : rows.map(row => row.number);
  return shown.flatMap(row => {
    const share = termSubject('vernier scale reading', row);
    // Where n × LC does not hold the share is what the reading has beyond the mark.
    const isLate = vernierRule(facts) === 'odd';
    const hasZero = corrects && facts.term('zero error').ok;
    return [
      ...(wanted(share) && !isLate ? [share] : []),
      termSubject('observed reading', row),
      ...(wanted(share) && isLate ? [share] : []),
      ...(hasZero || wanted(termSubject('corrected reading', row))
        ? [termSubject('corrected reading', row)]
        : []),
    ];
  });
}

/** The mean that a table of repeated readings is made for; of named rows each is its own quantity. */
function meanSubjects(facts: Facts, readings: boolean, keys: ReadonlySet<string>): readonly Subject[] {
  const { rows } = facts.measurement;
  const observed = termSubject('mean observed reading');
  const corrected = termSubject('mean corrected reading');
  const isRepeated = readings && rows.length > 1 && rows.every(row => row.label === null);
  const usual = facts.term('zero error').ok ? corrected : observed;
  return [observed, corrected, termSubject('mean absolute error'), termSubject('standard deviation')].filter(
    subject => keys.has(subjectKey(subject)) || (isRepeated && subject === usual),
  );
}

/** The mark before the line: which line it is follows from what the reading has beyond the mark. */
function shownByReading(facts: Facts, asked: readonly Subject[]): readonly Subject[] {
  const isLine = (subject: Subject): boolean =>
    subject.kind === 'term' &&
    (subject.term === 'coinciding division' || subject.term === 'circular scale reading');
  if (!asked.some(isLine)) return [];
  return [termSubject(facts.scales().hasCircular ? 'linear scale reading' : 'main scale reading')];
}

function isRowReading(subject: Subject): boolean {
  return subject.kind === 'term' && subject.block === null && subject.row !== null;
}

function tooManyRows({ measurement }: Facts): boolean {
  return measurement.rows.length > ROWS_IN_FULL;
}

function isReadingLike(subject: Subject): boolean {
  return subject.kind === 'division' || (subject.kind === 'term' && !/^(?:mean|standard)/.test(subject.term));
}

function unique(subjects: readonly Subject[]): readonly Subject[] {
  const seen = new Set<string>();
  return subjects.filter(subject => {
    const key = subjectKey(subject);
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}
