import type { Term } from './terms.ts';

/** `average correct reading` and its like. */
function meanNames(kinds: readonly string[]): readonly string[] {
  const names: string[] = [];
  for (const mean of ['mean', 'average', 'avg']) {
    for (const kind of kinds)
      names.push(`${mean} ${kind} reading`.replace('  ', ' '), `${mean} ${kind} readings`.replace('  ', ' '));
  }
  return names;
}

/** What is worked out from the scales and the readings, or given in the question. */
export const COMPUTED_TERMS: readonly Term[] = [
  {
    name: 'pitch',
    also: ['pitch of the screw', 'screw pitch'],
    kind: 'computed',
    meaning: 'how far the screw moves in one rotation',
    formula: 'distance moved / number of rotations',
    example: 'pitch = 0.5 mm',
  },
  {
    name: 'least count',
    also: ['LC', 'vernier constant', 'least count of the instrument', 'least count of vernier'],
    kind: 'computed',
    meaning: 'the smallest step that the scales can tell apart',
    formula: 'for N VSD = (N - 1) MSD: 1 MSD - 1 VSD = S/N; for a screw: pitch / N',
    example: 'least count = S - V = 0.02 mm',
  },
  {
    name: 'vernier scale reading',
    also: ['VSR', 'vernier reading'],
    kind: 'computed',
    meaning: 'what the vernier adds to the main scale reading',
    formula: 'observed reading - MSR (n × LC where line n stands for n least counts)',
    example: 'vernier scale reading = 17 × 0.002 cm = 0.034 cm',
  },
  {
    name: 'zero error',
    also: ['ZE', 'index error', 'zero reading'],
    kind: 'computed',
    meaning: 'what the instrument reads when it should read zero',
    sign: 'positive when the closed instrument reads too much; it is subtracted from every reading',
    example: 'zero error = +0.06 mm',
  },
  {
    name: 'zero correction',
    also: ['ZC', 'index correction'],
    kind: 'computed',
    meaning: 'what is added to every reading to make up for the zero error',
    formula: '-(zero error)',
    sign: 'opposite to the zero error',
    example: 'zero correction = -0.06 mm',
  },
  {
    name: 'observed reading',
    also: ['reading', 'total reading', 'measured reading', 'obs reading', 'observed', 'OR'],
    kind: 'computed',
    meaning: 'what the scales show, before the zero error is taken off',
    formula:
      'vernier: MSR + n × LC where that holds; screw: LSR + CSR × LC; always: the position that fits the scales',
    example: 'observed reading = 2.45 cm + 17 × 0.002 cm = 2.484 cm',
  },
  {
    name: 'corrected reading',
    also: ['true reading', 'correct reading', 'actual reading', 'corrected', 'CR'],
    kind: 'computed',
    meaning: 'the reading with the zero error taken off',
    formula: 'observed reading - zero error',
    example: 'corrected reading = 2.478 cm',
  },
  {
    name: 'mean observed reading',
    also: meanNames(['observed', 'obs', 'total', 'measured', '']),
    kind: 'computed',
    meaning: 'the mean of the observed readings of the table',
    formula: 'sum of the observed readings / number of rows',
    example: 'mean observed reading = 6.35 mm',
  },
  {
    name: 'mean corrected reading',
    also: meanNames(['corrected', 'correct', 'true', 'actual']),
    kind: 'computed',
    meaning: 'the mean of the corrected readings of the table',
    formula: 'sum of the corrected readings / number of rows',
    example: 'mean corrected reading D = 6.38 mm',
  },
  {
    name: 'mean absolute error',
    also: ['MAE', 'average absolute error', 'mean absolute deviation', 'mean deviation'],
    kind: 'computed',
    meaning: 'the mean of how far the readings lie from their mean, without sign',
    formula: 'sum of |reading - mean| / number of readings',
    sign: 'never negative',
    example: 'mean absolute error of T = 0.11 s',
  },
  {
    name: 'standard deviation',
    also: ['SD', 'std deviation', 'std dev', 'standard dev'],
    kind: 'computed',
    meaning: 'how much single readings scatter about their mean',
    formula: 'sqrt(sum of (reading - mean)^2 / (n - 1))',
    sign: 'never negative',
    example: 'standard deviation of T = 0.14 s',
  },
  {
    name: 'mean',
    also: ['average', 'avg', 'mean value', 'average value'],
    kind: 'statistic',
    meaning: 'the mean of a list or of a column',
    formula: 'sum of the values / number of values',
    example: 'mean of T = 2.62 s',
  },
  {
    name: 'percentage difference',
    also: ['percent difference'],
    kind: 'statistic',
    meaning: 'how far a value is from an accepted one, in per cent of that',
    formula: '|X - accepted| / |accepted| × 100 %',
    sign: 'never negative',
    example: 'percentage difference of g from 9.81 m/s^2 = 1.2 %',
  },
  {
    name: 'absolute error',
    also: ['maximum error', 'max error', 'maximum absolute error', 'error'],
    kind: 'statistic',
    meaning: 'how far a value may be off at most, from the errors of what it is worked out from',
    formula: 'sum of |df/dx| × (error of x)',
    sign: 'never negative',
    example: 'absolute error of rho = 0.11 g/cm^3',
  },
  {
    name: 'relative error',
    also: ['fractional error', 'maximum relative error', 'maximum fractional error'],
    kind: 'statistic',
    meaning: 'the absolute error as a part of the value',
    formula: 'absolute error / |value|',
    sign: 'never negative',
    example: 'relative error of rho = 0.014',
  },
  {
    name: 'percentage error',
    also: ['percent error', 'maximum percentage error', 'max percentage error', '% error'],
    kind: 'statistic',
    meaning: 'the relative error in per cent',
    formula: 'absolute error / |value| × 100 %; for a product of powers: the sum of power × percentage error',
    sign: 'never negative',
    example: 'percentage error of rho = 1.4 %',
  },
  {
    name: 'standard uncertainty',
    also: ['combined standard uncertainty'],
    kind: 'statistic',
    meaning: 'the uncertainty of a value as a standard deviation, by the root of the sum of squares',
    formula: 'sqrt(sum of (df/dx × standard uncertainty of x)^2)',
    sign: 'never negative',
    example: 'standard uncertainty of rho = 0.04 g/cm^3',
  },
  {
    name: 'expanded uncertainty',
    also: [],
    kind: 'statistic',
    meaning: 'the standard uncertainty times the coverage factor',
    formula: 'coverage factor × standard uncertainty',
    sign: 'never negative',
    example: 'expanded uncertainty of rho = 0.08 g/cm^3',
  },
];
