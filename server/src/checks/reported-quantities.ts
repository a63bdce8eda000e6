import { isPlain } from '../engine/dimension.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { likelyBaseUnits, type Unit, unitText } from '../engine/unit.ts';
import type { Facts } from '../language/facts.ts';
import { readingsOf } from '../language/facts-position.ts';
import type { Claim, Subject } from '../language/measurement.ts';
import { blockOf, subjectKey } from '../language/names.ts';
import type { Span } from '../language/syntax.ts';
import { type ComputedTerm, type DivisionTerm, READ_OFF } from '../language/term-names.ts';
import { shownValue } from '../render/shown-value.ts';
import { isReading } from './agreement.ts';
import type { ReportedQuantity } from './finding.ts';
import { termText } from './finding-from.ts';
import { isHere } from './record-lacks.ts';
import { isRecorded } from './student-findings.ts';

const DIVISIONS: readonly DivisionTerm[] = [
  'main scale division',
  'vernier scale division',
  'linear scale division',
  'circular scale division',
];
const FIRST: readonly ComputedTerm[] = ['pitch', 'least count', 'zero error', 'zero correction'];
const PER_ROW: readonly ComputedTerm[] = ['vernier scale reading', 'observed reading', 'corrected reading'];
const MEANS: readonly ComputedTerm[] = [
  'mean observed reading',
  'mean corrected reading',
  'mean absolute error',
  'standard deviation',
];

/**
 * All that a block determines, asked for or not, as programs get it; for a student only what the block itself records,
 * in the unit in which it does.
 */
export function reportedQuantities(facts: Facts, isStudents = false): readonly ReportedQuantity[] {
  const { measurement } = facts;
  const lines = claimSpans(measurement.claims);
  return reportedSubjects(facts).flatMap(subject => {
    const answer = facts.value(subject);
    if (!answer.ok || (isStudents && (answer.source === 'computed' || !isRecorded(facts, subject))))
      return [];
    const claimed = lines.get(subjectKey(subject));
    const own = answer.span !== null && isHere(measurement, answer.span) ? answer.span : null;
    const unit = claimed?.unit ?? null;
    const quantity = unit === null || isStudents ? answer.quantity : Q.withUnit(answer.quantity, unit);
    return [reportedQuantity(facts, subject, quantity, answer.source, own ?? claimed?.span ?? null)];
  });
}

/** What a block can determine, asked for or not, each once; of some of it there may be no value. */
export function reportedSubjects(facts: Facts): readonly Subject[] {
  const { measurement } = facts;
  const scales = facts.scales();
  const reported = new Map<string, Subject>();
  const claimed = new Set(measurement.claims.map(claim => subjectKey(claim.subject)));
  const add = (subject: Subject): void => {
    const key = subjectKey(subject);
    if (!reported.has(key)) reported.set(key, subject);
  };
  for (const division of DIVISIONS) {
    const used =
      division === 'vernier scale division'
        ? scales.hasVernier
        : division === 'circular scale division' || division === 'linear scale division'
          ? scales.hasCircular
          : !scales.hasCircular;
    if (used) add({ kind: 'division', division, block: null });
  }
  for (const term of FIRST) {
    if (term !== 'pitch' || scales.hasCircular) add({ kind: 'term', term, row: null, block: null });
  }
  const rows = measurement.rows.length > 0 ? measurement.rows.map(row => row.number) : [null];
  for (const row of rows) {
    const readings = readingsOf(facts, row);
    for (const term of READ_OFF)
      if (readings.has(term) || claimed.has(term)) add({ kind: 'term', term, row, block: null });
    for (const term of PER_ROW) {
      if (term !== 'vernier scale reading' || scales.hasVernier)
        add({ kind: 'term', term, row, block: null });
    }
    for (const name of row === null ? [] : (measurement.rows[row - 1]?.own.keys() ?? []))
      add({ kind: 'own', name, row, block: null });
  }
  if (measurement.rows.length > 1)
    for (const term of MEANS) add({ kind: 'term', term, row: null, block: null });
  for (const [name, record] of measurement.own) {
    const subject: Subject = { kind: 'own', name, row: null, block: null };
    add(record.kind === 'list' ? { kind: 'statistic', statistic: 'mean', of: subject, from: null } : subject);
  }
  for (const claim of measurement.claims) add(claim.subject);
  if (measurement.question.find !== null) add(measurement.question.find.subject);
  return [...reported.values()];
}

/** Where each subject is first claimed, and the unit that its last link is written in. */
function claimSpans(
  claims: readonly Claim[],
): ReadonlyMap<string, { readonly span: Span; readonly unit: Unit | null }> {
  const spans = new Map<string, { readonly span: Span; readonly unit: Unit | null }>();
  for (const claim of claims) {
    const key = subjectKey(claim.subject);
    if (!spans.has(key)) spans.set(key, { span: claim.span, unit: claimUnit(claim) });
  }
  return spans;
}

function claimUnit(claim: Claim): Unit | null {
  const last = claim.links[claim.links.length - 1];
  if (last?.content.kind !== 'stated') return null;
  const { expression } = last.content.stated;
  return expression.kind === 'literal' ? expression.quantity.unit : null;
}

function reportedQuantity(
  facts: Facts,
  subject: Subject,
  quantity: Q.Quantity,
  source: ReportedQuantity['source'],
  span: Span | null,
): ReportedQuantity {
  const row = subject.kind === 'term' || subject.kind === 'own' ? subject.row : null;
  const isCount = isPlain(quantity.dimension) && quantity.unit === null;
  const unit = isCount ? null : (quantity.unit ?? likelyBaseUnits(quantity.dimension));
  const number = (unit === null ? null : Q.inUnit(quantity, unit)) ?? quantity.scalar;
  const symbol = symbolOf(facts, subject);
  const elsewhere = blockOf(subject);
  const ownName = subject.kind === 'own' ? subject.name : symbol;
  return {
    term:
      subject.kind === 'own' && elsewhere === null
        ? null
        : `${termText(subject)}${elsewhere === null ? '' : ` of ${elsewhere}`}`,
    name: ownName,
    row: row === null ? null : (facts.measurement.rows[row - 1]?.label ?? row),
    span,
    value: S.scalarText(number),
    unit: unit === null ? null : unitText(unit) || null,
    exact: S.isExact(number),
    shown: shownValue(quantity, {
      unit,
      signed:
        subject.kind === 'term' && (subject.term === 'zero error' || subject.term === 'zero correction'),
      ...placesLike(facts, subject, quantity),
    }),
    source,
  };
}

/** A reading shows the places of its least count. */
function placesLike(facts: Facts, subject: Subject, quantity: Q.Quantity): { readonly atLeast?: number } {
  if (!isReading(subject) || quantity.unit === null) return {};
  const least = facts.term('least count');
  const number = least.ok ? Q.inUnit(least.quantity, quantity.unit) : null;
  const real = number === null ? null : S.realValue(number);
  const places = real === null ? null : R.terminatingPlaces(real);
  return places === null || places > 6 ? {} : { atLeast: places };
}

/** The symbol that a block gives a subject; null for none. */
export function symbolOf(facts: Facts, subject: Subject): string | null {
  const key = subjectKey(subject);
  for (const [symbol, named] of facts.measurement.symbols) if (subjectKey(named) === key) return symbol;
  return (
    facts.measurement.claims.find(
      claim => claim.symbol !== null && subject.kind !== 'own' && subjectKey(claim.subject) === key,
    )?.symbol ?? null
  );
}
