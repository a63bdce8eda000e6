import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { unitWord } from '../engine/unit.ts';
import type { Facts } from '../language/facts.ts';
import type { Measurement, RowNumber, Subject } from '../language/measurement.ts';
import type { ComputedTerm, DivisionTerm, ObservableTerm } from '../language/term-names.ts';
import { named } from './step-parts.ts';
import type { Deriving } from './working.ts';
import { isSexagesimal } from './written-value.ts';

/** The block that is worked, how its angles are written, and which names its formulas may use. */
export interface Setting {
  readonly facts: Facts;
  readonly way: Deriving['way'];
  readonly sexagesimal: boolean;
  /** Names that quantities of the block's own have taken. */
  readonly taken: ReadonlySet<string>;
}

export function settingOf(deriving: Deriving): Setting {
  const { facts } = deriving;
  return { facts, way: deriving.way, sexagesimal: writesMinutes(facts), taken: takenNames(facts) };
}

/** The short name of a term where the block has not given it to something else, else its full one. */
export function nameOf(setting: Setting, what: keyof typeof NAMES): Expression {
  const free = NAMES[what].find(name => !setting.taken.has(name) && !setting.taken.has(name.toLowerCase()));
  return named(free ?? NAMES[what].at(-1)!);
}

const NAMES = {
  main: ['S', 'MSD', 'main scale division'],
  vernier: ['V', 'VSD', 'vernier scale division'],
  linear: ['LSD', 'linear scale division'],
  circular: ['CSD', 'circular scale division'],
  rotation: ['pitch'],
  'main scale reading': ['MSR', 'main scale reading'],
  'linear scale reading': ['LSR', 'linear scale reading'],
  'circular scale reading': ['CSR', 'circular scale reading'],
  'coinciding division': ['n', 'VC', 'coinciding division'],
  'coinciding main mark': ['coinciding main mark'],
  'full rotations': ['full rotations'],
  'least count': ['LC', 'least count'],
  'observed reading': ['observed reading'],
  'corrected reading': ['corrected reading'],
  'zero error': ['zero error'],
  'zero correction': ['zero correction'],
  pitch: ['pitch'],
  count: ['N', 'number of divisions'],
} as const satisfies Readonly<Record<string, readonly string[]>>;

function takenNames(facts: Facts): ReadonlySet<string> {
  const before = known.get(facts);
  if (before !== undefined) return before;
  const taken = new Set<string>();
  known.set(facts, taken);
  let measurement: Measurement | null = facts.measurement;
  for (let depth = 0; measurement !== null && depth < DEEPEST; depth++) {
    for (const name of measurement.own.keys()) taken.add(name);
    for (const name of measurement.symbols.keys()) taken.add(name);
    for (const name of measurement.columns) taken.add(name);
    for (const { subject, symbol } of measurement.claims) {
      if (subject.kind === 'own') taken.add(subject.name);
      if (symbol !== null) taken.add(symbol);
    }
    const uses: Measurement['uses'] = measurement.uses;
    measurement = uses === null ? null : (facts.note.named(uses.name)?.measurement ?? null);
  }
  return taken;
}

const known = new WeakMap<Facts, ReadonlySet<string>>();

/** So many blocks may take over from one another. */
const DEEPEST = 20;

const DEGREE = unitWord('deg')!;

/** Whether angles are written in degrees and minutes: where the block writes them so, or its least count is no plain decimal of a degree. */
function writesMinutes(facts: Facts): boolean {
  const least = facts.term('least count');
  const dimension = facts.scales().dimension ?? (least.ok ? least.quantity.dimension : null);
  if (dimension === null || dimension.angle !== 1 || dimension.length !== 0) return false;
  const { scales, readings, rows, givens } = facts.measurement;
  const texts = [
    ...scales.flatMap(record => record.sides.map(side => side.text)),
    ...[readings, ...rows.slice(0, 3).map(row => row.readings)].flatMap(observed =>
      [...observed.values()].flatMap(observation =>
        observation.kind === 'at' && observation.value.kind === 'length'
          ? [observation.value.stated.text]
          : [],
      ),
    ),
    ...[...givens.values()].map(given => given.stated.text),
  ];
  if (texts.some(text => /[′″'"]|arcmin|arcsec|\bmin/.test(text))) return true;
  const number = least.ok ? Q.inUnit(least.quantity, DEGREE) : null;
  const real = number === null ? null : S.realValue(number);
  const places = real === null ? null : R.terminatingPlaces(real);
  return least.ok && (places === null || places > 2) && isSexagesimal(least.quantity);
}

export function termSubject(term: ComputedTerm | ObservableTerm, row: RowNumber = null): Subject {
  return { kind: 'term', term, row, block: null };
}

export function divisionSubject(division: DivisionTerm): Subject {
  return { kind: 'division', division, block: null };
}

/** The value of a term; null where the block does not determine it. */
export function termValue(
  facts: Facts,
  term: ComputedTerm | ObservableTerm,
  row: RowNumber = null,
): Q.Quantity | null {
  const answer = facts.term(term, row);
  return answer.ok ? answer.quantity : null;
}

/** What one division of a scale is worth by the records; null while it is open. */
export function divisionOf(facts: Facts, division: DivisionTerm): Q.Quantity | null {
  const answer = facts.value(divisionSubject(division));
  return answer.ok ? answer.quantity : null;
}
