import { type Instrument, type InstrumentScales, instrumentNamed } from '../../language/instruments.ts';
import type { Measurement } from '../../language/measurement.ts';
import type { Declarations } from '../../language/names.ts';
import {
  type ComputedTerm,
  type ObservableTerm,
  READ_OFF,
  type TermName,
} from '../../language/term-names.ts';

/** What a block has and still wants, in the order in which a reading is taken. */
export interface BlockState {
  readonly scales: InstrumentScales | null;
  /** Terms that the instrument wants next: its scales, the zero check, the readings, then what is worked out. */
  readonly wanted: readonly (readonly TermName[])[];
  readonly recorded: ReadonlySet<TermName>;
  readonly hasRows: boolean;
}

/** Looks at what a block has recorded so far, what it takes over from another block included. */
export function blockState(measurement: Measurement, names: Declarations): BlockState {
  const scales = scalesOf(measurement, names);
  const recorded = recordedTerms(measurement);
  const claimed = new Set<TermName>();
  for (const { subject } of measurement.claims) if (subject.kind === 'term') claimed.add(subject.term);
  const isFree = (term: TermName): boolean => !recorded.has(term) && !claimed.has(term);
  const hasZero = ['closed', 'zero error', 'zero correction'].some(term => recorded.has(term as TermName));
  const hasReading = READ_OFF.some(term => recorded.has(term));
  // Quantities of one's own without any scale need no instrument.
  const isBench = scales !== null || (measurement.own.size === 0 && measurement.claims.length === 0);
  const wanted: readonly (readonly TermName[])[] = !isBench
    ? []
    : [
        measurement.instrument === null && measurement.scales.length === 0 ? ['instrument'] : [],
        scales === null ? SCALES_OF.vernier.slice(0, 1) : scalesWanted(scales, recorded),
        hasZero ? [] : ['closed'],
        hasReading ? partnersWanted(scales, recorded) : readingsOf(scales),
        claimsWanted(measurement, hasZero, hasReading),
      ];
  return {
    scales,
    recorded,
    hasRows: measurement.rows.length > 0,
    wanted: wanted.map(terms => terms.filter(isFree)),
  };
}

/** Whether something that no block can do without is still missing: a scale or a reading. The zero check may be left out. */
export function lacksRecords({
  wanted: [instrument = [], scales = [], , readings = []],
}: BlockState): boolean {
  return [instrument, scales, readings].some(terms => terms.length > 0);
}

/** Whether an instrument with such scales can have a term at all. */
export function isOfScales(term: TermName, scales: InstrumentScales | null): boolean {
  switch (scales) {
    case null:
    case 'screw with vernier':
      return true;
    case 'vernier':
    case 'angle vernier':
      return !SCREW_ONLY.has(term);
    case 'screw':
    case 'dial':
      return !VERNIER_ONLY.has(term);
  }
}

const SCREW_ONLY: ReadonlySet<TermName> = new Set([
  'pitch',
  'screw',
  'linear scale',
  'circular scale',
  'linear scale division',
  'circular scale division',
  'linear scale reading',
  'full rotations',
  'circular scale reading',
  'initial circular reading',
  'final circular reading',
  'turned',
]);

const VERNIER_ONLY: ReadonlySet<TermName> = new Set([
  'main scale',
  'vernier scale',
  'main scale division',
  'vernier scale division',
  'main scale reading',
  'coinciding division',
  'coinciding main mark',
  'vernier scale reading',
  'vernier runs',
]);

/** The instrument of a block, where its name is one of the trade's. */
function instrumentOf({ instrument }: Measurement): Instrument | null {
  return instrument === null ? null : instrumentNamed(instrument);
}

function scalesOf(measurement: Measurement, { screw, vernier }: Declarations): InstrumentScales | null {
  const known = instrumentOf(measurement)?.scales;
  if (known !== undefined) return known;
  const has = (scale: string): boolean => measurement.scales.some(record => record.scale === scale);
  const isScrew = screw || has('screw') || has('circular scale');
  const isVernier = vernier || has('vernier scale');
  if (isScrew) return isVernier ? 'screw with vernier' : 'screw';
  return isVernier || has('main scale') ? 'vernier' : null;
}

const SCALES_OF: Readonly<Record<InstrumentScales, readonly TermName[]>> = {
  vernier: ['main scale', 'vernier scale'],
  'angle vernier': ['main scale', 'vernier scale'],
  screw: ['screw', 'circular scale', 'linear scale'],
  'screw with vernier': ['screw', 'circular scale', 'vernier scale', 'linear scale'],
  dial: ['screw', 'circular scale'],
};

function scalesWanted(scales: InstrumentScales, recorded: ReadonlySet<TermName>): readonly TermName[] {
  return SCALES_OF[scales].filter(term => {
    if (term === 'screw' && (recorded.has('pitch') || recorded.has('rotation'))) return false;
    // One rotation passes one division of the sleeve where nothing else is said.
    if (term === 'linear scale' && recorded.has('circular scale')) return false;
    return !recorded.has(term);
  });
}

/** What is read off each kind of scales. */
export function readingsOf(scales: InstrumentScales | null): readonly ObservableTerm[] {
  switch (scales) {
    case null:
    case 'vernier':
    case 'angle vernier':
      return ['main scale reading', 'coinciding division'];
    case 'screw':
      return ['linear scale reading', 'circular scale reading'];
    case 'screw with vernier':
      return ['linear scale reading', 'circular scale reading', 'coinciding division'];
    case 'dial':
      return ['full rotations', 'circular scale reading'];
  }
}

/** What belongs to a reading that is begun: a mark without its coinciding division. */
function partnersWanted(
  scales: InstrumentScales | null,
  recorded: ReadonlySet<TermName>,
): readonly TermName[] {
  const wanted = readingsOf(scales);
  if (!wanted.some(term => recorded.has(term))) return [];
  const isCoarse = recorded.has('linear scale reading') || recorded.has('full rotations');
  return wanted.filter(term => !((term === 'linear scale reading' || term === 'full rotations') && isCoarse));
}

function claimsWanted({ rows }: Measurement, hasZero: boolean, hasReading: boolean): readonly ComputedTerm[] {
  const isTable = rows.length > 0;
  return [
    'least count',
    ...(hasZero ? (['zero error', 'zero correction'] as const) : []),
    ...(hasReading && !isTable ? (['observed reading'] as const) : []),
    ...(hasReading && !isTable && hasZero ? (['corrected reading'] as const) : []),
    ...(rows.length > 1 ? (['mean observed reading'] as const) : []),
    ...(rows.length > 1 && hasZero ? (['mean corrected reading'] as const) : []),
    ...(rows.length > 1 ? (['mean absolute error', 'standard deviation'] as const) : []),
  ];
}

function recordedTerms(measurement: Measurement): ReadonlySet<TermName> {
  const recorded = new Set<TermName>();
  const { scales, counts, readings, rows, givens, question } = measurement;
  for (const { scale } of scales) recorded.add(scale);
  if (scales.some(({ scale }) => scale === 'circular scale division')) recorded.add('circular scale');
  if (scales.some(({ scale }) => scale === 'main scale division')) recorded.add('main scale');
  if (scales.some(({ scale }) => scale === 'vernier scale division')) recorded.add('vernier scale');
  for (const scale of counts.keys()) recorded.add(scale);
  for (const term of readings.keys()) recorded.add(term);
  for (const row of rows) for (const term of row.readings.keys()) recorded.add(term);
  for (const term of givens.keys()) recorded.add(term);
  const also: readonly (readonly [TermName, boolean])[] = [
    ['instrument', measurement.instrument !== null],
    ['closed', measurement.closed.length > 0],
    ['measuring range', measurement.range !== null],
    ['error rule', measurement.errorRule !== null],
    ['coverage factor', measurement.coverageFactor !== null],
    ['vernier runs', measurement.runsBackward],
    ['uses', measurement.uses !== null],
    ['find', question.find !== null],
    ['answer', question.answer !== null],
  ];
  for (const [term, isRecorded] of also) if (isRecorded) recorded.add(term);
  return recorded;
}
