import type { Answer } from './answer.ts';
import type { Measurement, Subject } from './measurement.ts';
import { type DivisionTerm, READ_OFF, type StatisticTerm } from './term-names.ts';

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

/**
 * Whether a subject that cannot be worked out rests on a record that could not be read.
 *
 * That record is reported where it stands, so that what follows from it is not reported again.
 */
export function restsOnBroken({ broken }: Measurement, subject: Subject): boolean {
  if (broken.size === 0) return false;
  const any = (names: readonly string[]): boolean => names.some(name => broken.has(name));
  switch (subject.kind) {
    case 'own':
      return broken.has(subject.name);
    case 'division':
    case 'count':
      return any(SCALES);
    case 'statistic':
      return subject.of.kind === 'own' && subject.of.block === null && broken.has(subject.of.name);
    case 'unknown':
      return false;
    case 'term':
      switch (subject.term) {
        case 'pitch':
        case 'least count':
          return any(SCALES);
        case 'zero error':
        case 'zero correction':
          return any(ZERO);
        case 'observed reading':
        case 'vernier scale reading':
        case 'mean observed reading':
          return any(READING);
        case 'corrected reading':
        case 'mean corrected reading':
        case 'mean absolute error':
        case 'standard deviation':
          return any(ALL);
        default:
          return broken.has(subject.term);
      }
  }
}

/** What each division is worked out from. */
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

/** The records of its own block that a subject may rest on. */
function restsOn(subject: Subject): readonly string[] {
  switch (subject.kind) {
    case 'own':
    case 'unknown':
      return [];
    case 'count':
      return subject.block === null ? SCALES : [];
    case 'division':
      return subject.block === null ? DIVISION_FROM[subject.division] : [];
    case 'statistic':
      return FROM_SPREAD.has(subject.statistic) ? SPREAD : [];
    case 'term':
      if (subject.block !== null) return [];
      switch (subject.term) {
        case 'pitch':
          return DIVISION_FROM.rotation;
        case 'least count':
          return SCALES;
        case 'zero error':
        case 'zero correction':
          return ZERO;
        default:
          return subject.term.includes('corrected') ? ALL : READING;
      }
  }
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
