/** The full names of the trade, which the report uses and completion offers. */
export type ScaleTerm = 'main scale' | 'vernier scale' | 'linear scale' | 'circular scale' | 'screw';

export type DivisionTerm =
  | 'main scale division'
  | 'vernier scale division'
  | 'linear scale division'
  | 'circular scale division'
  | 'rotation';

export type ObservableTerm =
  | 'main scale reading'
  | 'coinciding division'
  | 'coinciding main mark'
  | 'linear scale reading'
  | 'full rotations'
  | 'circular scale reading'
  | 'initial circular reading'
  | 'final circular reading'
  | 'turned'
  | 'closed';

/** The observables that a reading is made of. */
export const READ_OFF: readonly ObservableTerm[] = [
  'main scale reading',
  'coinciding division',
  'coinciding main mark',
  'linear scale reading',
  'full rotations',
  'circular scale reading',
  'initial circular reading',
  'final circular reading',
];

/** Computed from the scales and readings of a block, or given in the question. */
export type ComputedTerm =
  | 'pitch'
  | 'least count'
  | 'vernier scale reading'
  | 'zero error'
  | 'zero correction'
  | 'observed reading'
  | 'corrected reading'
  | 'mean observed reading'
  | 'mean corrected reading'
  | 'mean absolute error'
  | 'standard deviation';

/** Computed for another quantity: `percentage error of rho`. */
export type StatisticTerm =
  | 'mean'
  | 'mean absolute error'
  | 'standard deviation'
  | 'percentage difference'
  | 'absolute error'
  | 'relative error'
  | 'percentage error'
  | 'standard uncertainty'
  | 'expanded uncertainty';

export type RecordTerm =
  | 'instrument'
  | 'vernier runs'
  | 'measuring range'
  | 'error rule'
  | 'coverage factor'
  | 'uses'
  | 'find'
  | 'option'
  | 'answer'
  | 'waive'
  | 'label';

export type TermName = ScaleTerm | DivisionTerm | ObservableTerm | ComputedTerm | StatisticTerm | RecordTerm;
