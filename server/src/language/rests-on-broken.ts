import type { Measurement, Subject } from './measurement.ts';
import { READ_OFF } from './term-names.ts';

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
const ZERO = [...SCALES, 'closed', 'zero error', 'zero correction'];
const READING: readonly string[] = [
  ...SCALES,
  ...READ_OFF,
  'turned',
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
