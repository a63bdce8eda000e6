import type { Dimension } from '../engine/dimension.ts';
import type { Expression } from '../engine/expression.ts';
import type * as Q from '../engine/quantity.ts';
import * as S from '../engine/scalar.ts';
import { evaluateIn, evaluateStated } from '../language/evaluate-in.ts';
import type { Facts } from '../language/facts.ts';
import type { ClosedPosition, OwnRecord, Question, Stated } from '../language/measurement.ts';
import { subjectKey } from '../language/names.ts';
import { reportedSubjects, symbolOf } from './reported-quantities.ts';

/**
 * Six hexadecimal digits that stand for what a block says: they change when a working of it is out of date.
 *
 * They are made of the exact values of all that the block determines, with the names of rows and symbols, of how the
 * closed instrument stands, of the lists, the error rule, the question with its choices and its key. How the block is
 * set out, the order of its records, the units of typing and what its claims say do not enter.
 *
 * The hash is FNV-1a with 32 bits, its upper 8 folded onto the lower 24 (Fowler, Noll and Vo; "xor-folding"): a change
 * is missed once in some 17 million times. It protects nothing; it only notices.
 */
export function factsDigest(facts: Facts): string {
  const before = known.get(facts);
  if (before !== undefined) return before;
  const parts = [
    ...quantityParts(facts),
    ...recordParts(facts),
    ...questionParts(facts, facts.measurement.question),
  ];
  const digest = hash(parts.sort().join('\n'));
  known.set(facts, digest);
  return digest;
}

/**
 * What can be seen on a block's instrument, as a text that is the same for the same scales and observations however they
 * are typed: the exact values of its divisions and of what is read off, row by row, and how the closed instrument stands.
 * Of a block that observes nothing, what it asks for belongs to it. Null for a block that sets no question.
 */
export function seenText(facts: Facts): string | null {
  const { readings, rows, closed, question } = facts.measurement;
  const observes = readings.size > 0 || closed.length > 0 || rows.some(row => row.readings.size > 0);
  if (!observes && question.find === null) return null;
  const seen = reportedSubjects(facts).flatMap(subject => {
    if (subject.kind !== 'division' && subject.kind !== 'term') return [];
    const answer = facts.value(subject);
    return answer.ok ? [`${subjectKey(subject)}|${valueText(answer.quantity)}`] : [];
  });
  if (seen.length === 0) return null;
  const asked = observes || question.find === null ? [] : [`find|${subjectKey(question.find.subject)}`];
  const stands = closed.map(({ position }) => `closed|${positionText(facts, position)}`);
  return [...seen, ...stands, ...asked].sort().join('\n');
}

/** Several workings may belong to one block. */
const known = new WeakMap<Facts, string>();

function quantityParts(facts: Facts): readonly string[] {
  return reportedSubjects(facts).flatMap(subject => {
    const answer = facts.value(subject);
    return answer.ok
      ? [`${subjectKey(subject)}|${symbolOf(facts, subject) ?? ''}|${valueText(answer.quantity)}`]
      : [];
  });
}

function recordParts(facts: Facts): readonly string[] {
  const { closed, own, rows, errorRule, coverageFactor, runsBackward } = facts.measurement;
  return [
    ...closed.map(({ position }) => `closed|${positionText(facts, position)}`),
    ...[...own].map(([name, record]) => `own ${name}|${recordText(facts, record)}`),
    ...rows.map(({ number, label }) => `row ${number}|${label ?? ''}`),
    ...(runsBackward ? ['vernier runs|backward'] : []),
    `error rule|${errorRule?.rule ?? 'least count'}`,
    ...(coverageFactor === null ? [] : [`coverage factor|${statedText(facts, coverageFactor)}`]),
  ];
}

/** The choices with their letters, what is asked, and the key. */
function questionParts(facts: Facts, { find, options, answer }: Question): readonly string[] {
  const asked = find === null ? null : facts.value(find.subject);
  const wanted = asked?.ok ? asked.quantity.dimension : null;
  const stated = (value: Stated | null): string =>
    value === null ? 'none' : statedText(facts, value, wanted);
  return [
    ...(find === null ? [] : [`find|${subjectKey(find.subject)}`]),
    ...options.map(option => `option ${option.letter}|${stated(option.stated)}`),
    ...(answer === null
      ? []
      : [
          `answer|${answer.letters.length > 0 ? [...answer.letters].sort().join(',') : stated(answer.stated)}`,
        ]),
  ];
}

function positionText(facts: Facts, position: ClosedPosition): string {
  const shown = (stated: Stated | null): string => (stated === null ? '' : statedText(facts, stated));
  switch (position.kind) {
    case 'zeros-coincide':
      return position.kind;
    case 'division':
      return [
        ...[position.side, position.scale, shown(position.division), shown(position.vernierDivision)],
        position.fromFarEnd ? 'far' : '',
        ...(position.nextDivision === null ? [] : [shown(position.nextDivision)]),
      ].join(' ');
    case 'offset':
      return [position.side, shown(position.divisions), shown(position.angle)].join(' ');
  }
}

/** What a record of one's own says beyond its value: its error, the values of a list. */
function recordText(facts: Facts, record: OwnRecord): string {
  switch (record.kind) {
    case 'value':
      return errorText(facts, record.given.stated.error);
    case 'list':
      return record.values.map(value => statedText(facts, value)).join(', ');
    case 'letter':
      return `${record.domain} ${errorText(facts, record.error)}`;
  }
}

function errorText(facts: Facts, error: Expression | null): string {
  if (error === null) return '';
  const answer = evaluateIn(facts, error);
  return `± ${answer.ok ? valueText(answer.quantity) : '?'}`;
}

/** A stated value whatever its unit; where it has none, its text without blanks. */
function statedText(facts: Facts, stated: Stated, wanted: Dimension | null = null): string {
  const answer = evaluateStated(facts, stated, wanted);
  return answer.ok ? valueText(answer.quantity) : stated.text.replace(/\s+/g, '');
}

/** A value in base units with its dimension. */
function valueText({ scalar, dimension }: Q.Quantity): string {
  const powers = Object.entries(dimension)
    .filter(([, power]) => power !== 0)
    .map(([base, power]) => `${base}${power}`)
    .sort();
  return [S.scalarText(scalar), ...powers].join(' ');
}

const OFFSET_BASIS = 0x811c9dc5;
const PRIME = 0x01000193;

function hash(text: string): string {
  let sum = OFFSET_BASIS;
  for (let at = 0; at < text.length; at++) sum = Math.imul(sum ^ text.charCodeAt(at), PRIME);
  return ((sum >>> 24) ^ (sum & 0xffffff)).toString(16).padStart(6, '0');
}
