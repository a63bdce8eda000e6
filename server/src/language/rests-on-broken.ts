import type { Answer } from './answer.ts';
import type { Measurement, Subject } from './measurement.ts';
import { type ComputedTerm, type DivisionTerm, READ_OFF, type StatisticTerm } from './term-names.ts';

const SCALES = [
  'main scale',
  'vernier scale',
  'linear scale',
  'circular scale',
  'screw',
  'pitch',
  'least count',
  'main scale division',
  'vernier scale division',
  'linear scale division',
  'circular scale division',
  'rotation',
];
const ZERO = [...SCALES, 'vernier runs', 'closed', 'zero error', 'zero correction'];
const READING: readonly string[] = [
  ...SCALES,
  ...READ_OFF,
  'turned',
  'vernier runs',
  'observed reading',
  'vernier scale reading',
];
const ALL = [...new Set([...ZERO, ...READING, 'corrected reading'])];

/** What each term of the scales and the readings may follow from; an observable follows from a reading that is known. */
const TERM_FROM: Readonly<Record<ComputedTerm, readonly string[]>> = {
  pitch: SCALES,
  'least count': SCALES,
  'zero error': ZERO,
  'zero correction': ZERO,
  'observed reading': READING,
  'vernier scale reading': READING,
  'mean observed reading': READING,
  'mean absolute error': READING,
  'standard deviation': READING,
  'corrected reading': ALL,
  'mean corrected reading': ALL,
};

/**
 * Whether a subject that cannot be worked out rests on a record that could not be read.
 *
 * That record is reported where it stands, so that what follows from it is not reported again.
 */
export function restsOnBroken({ broken }: Measurement, subject: Subject): boolean {
  if (broken.size === 0) return false;
  const of = subject.kind === 'statistic' ? subject.of : subject;
  if (of.kind === 'own') return of.block === null && broken.has(of.name);
  // What is seen is missing where it was not recorded, whatever else is broken.
  if (subject.kind === 'term' && !(subject.term in TERM_FROM)) return broken.has(subject.term);
  return mayFollowFrom(subject).some(name => broken.has(name));
}

/** The records of its own block from which the scales and the readings may make a subject. */
function mayFollowFrom(subject: Subject): readonly string[] {
  switch (subject.kind) {
    case 'own':
    case 'unknown':
    case 'statistic':
      return [];
    case 'count':
    case 'division':
      return subject.block === null ? SCALES : [];
    case 'term':
      return subject.block === null ? (TERM_FROM[subject.term as ComputedTerm] ?? READING) : [];
  }
}

/** What each division is worked out from, where it was found: a line about the vernier need not concern the main scale. */
const DIVISION_FROM: Readonly<Record<DivisionTerm, readonly string[]>> = {
  'main scale division': ['main scale', 'main scale division'],
  'linear scale division': ['linear scale', 'linear scale division', 'screw', 'rotation', 'pitch'],
  rotation: ['linear scale', 'linear scale division', 'screw', 'rotation', 'pitch'],
  'vernier scale division': SCALES,
  'circular scale division': SCALES.filter(name => !name.startsWith('vernier')),
};

/** Error and uncertainty go by these records. */
const SPREAD = ['error rule', 'coverage factor'];
const FROM_SPREAD: ReadonlySet<StatisticTerm> = new Set<StatisticTerm>([
  'absolute error',
  'relative error',
  'percentage error',
  'standard uncertainty',
  'expanded uncertainty',
]);

/**
 * Whether an answer cannot be relied on: it was found, or found impossible, without a record that could not be read.
 *
 * So a misspelt vernier scale does not make the main scale's division the least count. What is recorded itself stands.
 */
export function isUnsure(measurement: Measurement, subject: Subject, answer: Answer): boolean {
  const { unread, sentences } = measurement;
  if (unread.size === 0 && !sentences.has('screw')) return false;
  if (answer.ok ? answer.source !== 'computed' : !MISLED.has(answer.lack.kind)) return false;
  const open = (name: string): boolean =>
    (unread.has(name) || (name === 'screw' && sentences.has(name))) && !isElsewhere(measurement, name);
  return restsOn(subject).some(open);
}

/** What observations may seem to be where a record is left out. */
const MISLED: ReadonlySet<string> = new Set(['impossible', 'ambiguous']);

/** The records of its own block that a subject rests on as it was found. */
function restsOn(subject: Subject): readonly string[] {
  if (subject.kind === 'statistic') return FROM_SPREAD.has(subject.statistic) ? SPREAD : [];
  if (subject.kind === 'division' && subject.block === null) return DIVISION_FROM[subject.division];
  const isPitch = subject.kind === 'term' && subject.term === 'pitch' && subject.block === null;
  return isPitch ? DIVISION_FROM.rotation : mayFollowFrom(subject);
}

/** Whether a line that was read says what a broken one was to record. */
function isElsewhere({ scales, counts, givens, readings, rows }: Measurement, name: string): boolean {
  const says = (start: string): boolean => scales.some(({ scale }) => scale.startsWith(start));
  switch (name) {
    case 'main scale':
    case 'main scale division':
    case 'linear scale':
    case 'linear scale division':
    case 'vernier scale':
    case 'vernier scale division':
      return says(name.replace(/ division$/, ''));
    case 'circular scale':
    case 'circular scale division':
      return counts.has('circular scale') || says('circular scale');
    case 'screw':
    case 'rotation':
    case 'pitch':
      return givens.has('pitch') || says('screw') || says('rotation');
    case 'least count':
      return (
        givens.has(name) || says('vernier scale') || counts.has('circular scale') || says('circular scale')
      );
    default:
      return readings.has(name as never) || rows.some(row => row.readings.has(name as never));
  }
}
