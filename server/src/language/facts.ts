import type * as Q from '../engine/quantity.ts';
import { type Answer, computed, lacking, REPORTED } from './answer.ts';
import { divisionAnswer, fineCount, leastCount, pitch } from './facts-divisions.ts';
import { errorValue } from './facts-error.ts';
import { ownValue } from './facts-own.ts';
import { positionValue } from './facts-position.ts';
import { type ScaleFacts, scaleFacts } from './facts-scales.ts';
import { listStatistic, meanReading } from './facts-statistics.ts';
import { correctedReading, observedReading, zeroCorrection, zeroError } from './facts-zero.ts';
import type { Measurement, RowNumber, Subject } from './measurement.ts';
import { blockOf, subjectKey } from './names.ts';
import { isUnsure, restsOnBroken } from './rests-on-broken.ts';
import type { ComputedTerm, ObservableTerm } from './term-names.ts';

/**
 * All that a block's records determine, worked out on demand and kept.
 *
 * It rests on records and computed values only, never on claims, except for those put in by hand (`overrides`) to
 * see what would follow from them.
 */
export interface Facts {
  readonly measurement: Measurement;
  readonly index: number;
  readonly note: NoteFacts;
  value(subject: Subject): Answer;
  term(term: ComputedTerm | ObservableTerm, row?: RowNumber): Answer;
  /** The value that a wrong claim puts in the place of a subject; null where none does. */
  override(subject: Subject): Q.Quantity | null;
  scales(): ScaleFacts;
  readonly memo: Map<string, Answer>;
}

export interface NoteFacts {
  /** All blocks, for whoever looks at every one of them. */
  blocks(): readonly Facts[];
  /** The facts of one block, made when they are first asked for: a long note has thousands. */
  block(index: number): Facts;
  /** The facts of a named block; null for an unknown one. */
  named(name: string): Facts | null;
  /** Which block a name means; null for none. */
  indexOf(name: string): number | null;
  readonly overrides: ReadonlyMap<string, Q.Quantity>;
}

/** The key of a subject of one block among those of the note. */
export function overrideKey(index: number, subject: Subject): string {
  return `${index}:${subjectKey(subject)}`;
}

/** The facts of all blocks of a note; `overrides` are values put in the place of what the records determine. */
export function noteFacts(
  measurements: readonly Measurement[],
  overrides: ReadonlyMap<string, Q.Quantity> = new Map(),
): NoteFacts {
  const names = blockNames(measurements);
  const made = new Map<number, Facts>();
  const note: NoteFacts = {
    blocks: () => measurements.map((_, index) => note.block(index)),
    block(index) {
      const before = made.get(index);
      if (before !== undefined) return before;
      const facts = blockFacts(measurements[index]!, index, note);
      made.set(index, facts);
      return facts;
    },
    named(name) {
      const index = note.indexOf(name);
      return index === null ? null : note.block(index);
    },
    indexOf: name => names.get(name.toLowerCase()) ?? null,
    overrides,
  };
  return note;
}

/** The same note with another measurement in the place of one block; all other blocks keep their facts. */
export function withBlock(note: NoteFacts, index: number, measurement: Measurement): Facts {
  const variant: NoteFacts = {
    blocks: () => note.blocks().map(facts => (facts.index === index ? own : facts)),
    block: other => (other === index ? own : note.block(other)),
    named(name) {
      const other = note.indexOf(name);
      return other === null ? null : variant.block(other);
    },
    indexOf: name => note.indexOf(name),
    overrides: note.overrides,
  };
  const own = blockFacts(measurement, index, variant);
  return own;
}

/** The first block of each name, by its name in small letters. */
function blockNames(measurements: readonly Measurement[]): ReadonlyMap<string, number> {
  const before = known.get(measurements);
  if (before !== undefined) return before;
  const names = new Map<string, number>();
  for (const [index, { name }] of measurements.entries()) {
    const key = name?.toLowerCase();
    if (key !== undefined && !names.has(key)) names.set(key, index);
  }
  known.set(measurements, names);
  return names;
}

const known = new WeakMap<readonly Measurement[], ReadonlyMap<string, number>>();

function blockFacts(measurement: Measurement, index: number, note: NoteFacts): Facts {
  let scales: ScaleFacts | null = null;
  const underWay = new Set<string>();
  const facts: Facts = {
    measurement,
    index,
    note,
    memo: new Map(),
    value(subject) {
      const key = subjectKey(subject);
      const before = facts.memo.get(key);
      if (before !== undefined) return before;
      if (underWay.has(key)) {
        const way = [...underWay];
        return lacking({ kind: 'circular', message: ringText(way.slice(way.indexOf(key)).map(shortKey)) });
      }
      if (underWay.size > MOST_NESTED)
        return lacking({ kind: 'limit', message: `more than ${MOST_NESTED} quantities rest on one another` });
      underWay.add(key);
      const found = answerFor(facts, subject);
      const isLeft = !found.ok && found.lack.kind === 'missing' && restsOnBroken(measurement, subject);
      const answer = isLeft || isUnsure(measurement, subject, found) ? REPORTED : found;
      underWay.delete(key);
      // What failed only because it was asked for in the middle of something circular may succeed by itself.
      if (answer.ok || answer.lack.kind !== 'circular' || underWay.size === 0) facts.memo.set(key, answer);
      return answer;
    },
    term: (term, row = null) => facts.value({ kind: 'term', term, row, block: null }),
    override: subject =>
      note.overrides.size === 0 ? null : (note.overrides.get(overrideKey(index, subject)) ?? null),
    scales() {
      scales ??= scaleFacts(facts);
      return scales;
    },
  };
  return facts;
}

/** Longer chains of quantities are a mistake, or a trap. */
const MOST_NESTED = 60;

function shortKey(key: string): string {
  const [, block, inside] = /^\[(.+?)\] (.+)$/.exec(key) ?? [];
  return (inside ?? key).replace(/\bown |^1 /g, '') + (block === undefined ? '' : ` of ${block}`);
}

/** `a rests on b, and b on a, so neither can be worked out`. */
function ringText(ring: readonly string[]): string {
  const [first = ''] = ring;
  if (ring.length === 1) return `${first} is worked out from itself`;
  if (ring.length > LONGEST_RING)
    return `${first} is worked out from itself, by way of ${ring.length - 1} other quantities`;
  const steps = ring.map(
    (name, index) => `${name} ${index === 0 ? 'rests ' : ''}on ${ring[index + 1] ?? first}`,
  );
  const last = steps.pop();
  return `${steps.join(', ')}, and ${last}, so ${ring.length === 2 ? 'neither' : 'none of them'} can be worked out`;
}

/** Longer rings are not told step by step. */
const LONGEST_RING = 6;

function answerFor(facts: Facts, subject: Subject): Answer {
  if (subject.kind === 'statistic') {
    const inside = blockOf(subject.of);
    if (inside !== null) {
      const other = facts.note.named(inside);
      return other === null
        ? lacking({ kind: 'reported' })
        : other.value({ ...subject, of: localSubject(subject.of) });
    }
  } else if (subject.kind !== 'unknown' && subject.block !== null) {
    const other = facts.note.named(subject.block);
    return other === null ? lacking({ kind: 'reported' }) : other.value({ ...subject, block: null });
  }
  const override = facts.override(subject);
  if (override !== null) return computed(override);
  switch (subject.kind) {
    case 'unknown':
      return lacking({ kind: 'unknown-name', word: subject.word, span: null });
    case 'division':
      return divisionAnswer(facts, subject.division);
    case 'count':
      return fineCount(facts);
    case 'own':
      return ownValue(facts, subject.name, subject.row);
    case 'statistic':
      return statisticValue(facts, subject);
    case 'term':
      return termValue(facts, subject.term, subject.row);
  }
}

function statisticValue(facts: Facts, subject: Extract<Subject, { readonly kind: 'statistic' }>): Answer {
  switch (subject.statistic) {
    case 'mean':
    case 'mean absolute error':
    case 'standard deviation':
      return listStatistic(facts, subject.statistic, subject.of);
    default:
      return errorValue(facts, subject);
  }
}

function termValue(facts: Facts, term: ComputedTerm | ObservableTerm, row: RowNumber): Answer {
  switch (term) {
    case 'pitch':
      return pitch(facts);
    case 'least count':
      return leastCount(facts);
    case 'zero error':
      return zeroError(facts);
    case 'zero correction':
      return zeroCorrection(facts);
    case 'observed reading':
      return observedReading(facts, row);
    case 'corrected reading':
      return correctedReading(facts, row);
    case 'mean observed reading':
      return meanReading(facts, 'observed reading');
    case 'mean corrected reading':
      return meanReading(facts, 'corrected reading');
    case 'mean absolute error':
    case 'standard deviation':
      return listStatistic(facts, term, null);
    default:
      return positionValue(facts, term, row);
  }
}

function localSubject(subject: Subject): Subject {
  if (subject.kind === 'statistic') return { ...subject, of: localSubject(subject.of) };
  return subject.kind === 'unknown' ? subject : { ...subject, block: null };
}

/** A subject in the words of the trade, for messages. */
export function subjectText(subject: Subject): string {
  switch (subject.kind) {
    case 'term':
      return `the ${subject.term}${subject.row === null ? '' : ` of row ${subject.row}`}${ofBlock(subject.block)}`;
    case 'division':
      return `the ${subject.division}${ofBlock(subject.block)}`;
    case 'count':
      return `the number of divisions N${ofBlock(subject.block)}`;
    case 'own':
      return `${subject.name}${subject.row === null ? '' : ` of row ${subject.row}`}${ofBlock(subject.block)}`;
    case 'statistic':
      return `the ${subject.statistic} of ${subjectText(subject.of).replace(/^the /, '')}`;
    case 'unknown':
      return subject.word;
  }
}

function ofBlock(block: string | null): string {
  return block === null ? '' : ` of ${block}`;
}
