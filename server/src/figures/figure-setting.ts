import type { NoteCheck } from '../checks/note-check.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import type { Division } from '../engine/scales.ts';
import { type Unit, unitShown, unitWord } from '../engine/unit.ts';
import type { Facts } from '../language/facts.ts';
import { division, ratio } from '../language/facts-divisions.ts';
import { readingsOf } from '../language/facts-position.ts';
import { closedValue } from '../language/facts-zero.ts';
import { circularReading } from '../language/fine-scales.ts';
import { instrumentNamed } from '../language/instruments.ts';
import type { RowNumber } from '../language/measurement.ts';
import { lineCount } from '../language/vernier-lines.ts';
import type {
  ClosedStand,
  DividedScale,
  Drum,
  FigureFamily,
  FigureSetting,
  Stand,
  Turned,
  VernierScale,
} from '../render/figures/setting.ts';
import { type StandParts, standAt } from './stand.ts';
import { closedWords, workedWords } from './worked-words.ts';

/** More lines than this no vernier has that an eye could read. */
const MOST_LINES = 200;
/** More divisions no drum has. */
const MOST_ROUND = 1000;
/** The vernier's span and the way to the reading are drawn up to so many divisions. */
const MOST_SPAN = 1000;
/** More zero checks than this are told of, not drawn. */
const MOST_CLOSED = 3;
const FARTHEST = R.rational(1_000_000);

/**
 * The instrument of a block as it stood at a reading; null where the block does not determine it.
 *
 * `row` is the table's row, null for the single reading or, where there is none, for the first row. Letters, values
 * that are not exact and scales that nobody could read have no drawing.
 */
export function figureSetting(note: NoteCheck, block: number, row: RowNumber): FigureSetting | null {
  if (block < 0 || note.fences <= block) return null;
  const facts = note.facts.block(block);
  const chosen = row ?? (facts.measurement.rows.length > 0 ? 1 : null);
  if (chosen !== null && !(1 <= chosen && chosen <= facts.measurement.rows.length)) return null;
  const family = familyOf(facts, chosen);
  const unit = shownUnit(facts);
  if (family === null || unit === null) return null;
  const scale = coarseScale(facts, family, unit);
  const drum = facts.scales().hasCircular ? drumOf(facts, unit) : null;
  const vernier = facts.scales().hasVernier ? vernierOf(facts, unit) : null;
  if (scale === null || (drum === null) !== (family === 'vernier' || family === 'arc')) return null;
  if (drum === null && vernier === null) return null;
  if (vernier === null && facts.scales().hasVernier) return null;
  const at = placeOf(facts.term('observed reading', chosen), unit);
  const words = workedWords(facts, chosen);
  if (at === null || words === null) return null;
  const parts = { division: scale.division, vernier, drum };
  const reading = standAt(at, parts);
  const closed = closedStands(facts, unit, parts);
  if (reading === null) return null;
  return {
    family,
    instrument: facts.measurement.instrument,
    name: facts.measurement.name,
    label: chosen === null ? null : (facts.measurement.rows[chosen - 1]?.label ?? null),
    scale: {
      ...scale,
      from: beginning(scale, vernier, [reading, ...closed]),
      // A circle that is read below its zero is numbered so there.
      around: R.sign(at) < 0 ? null : scale.around,
    },
    vernier,
    isUpright: family === 'vernier' && UPRIGHT.has(nameOf(facts) ?? ''),
    drum,
    reading,
    closed,
    closedChecks: facts.measurement.closed.length,
    turned: turnedDisc(facts, chosen),
    words,
  };
}

/** How the instrument stood in its zero checks, as far as that is known; in no more than the first few. */
function closedStands(facts: Facts, unit: Unit, parts: StandParts): readonly ClosedStand[] {
  const checks = facts.measurement.closed;
  return checks.slice(0, MOST_CLOSED).flatMap(check => {
    const value = closedValue(facts, check);
    const place = placeOf(value, unit);
    const stand = place === null ? null : standAt(place, parts);
    if (stand === null || !value.ok) return [];
    return [{ ...stand, says: closedWords(facts, value.quantity, checks.length) }];
  });
}

function familyOf(facts: Facts, row: RowNumber): FigureFamily | null {
  const { hasCircular, hasVernier, vernierBase, dimension } = facts.scales();
  const name = nameOf(facts);
  if (hasCircular) {
    if (hasVernier) return vernierBase === 'circular' ? 'screw' : null;
    if (name === 'dial gauge') return 'dial';
    if (name === 'spherometer' || readingsOf(facts, row).has('final circular reading')) return 'disc';
    return 'screw';
  }
  if (!hasVernier || vernierBase !== 'main') return null;
  return dimension?.angle === 1 ? 'arc' : 'vernier';
}

/** What stands upright while it is read; common practice, no source. */
const UPRIGHT: ReadonlySet<string> = new Set(['height gauge', 'depth gauge', 'barometer']);

/** The instrument by its name in the table of the trade; null for one that it does not have. */
function nameOf({ measurement: { instrument } }: Facts): string | null {
  return instrument === null ? null : (instrumentNamed(instrument)?.name ?? null);
}

/** The unit of the scale's numbers: degrees for angles, else the one that the records of the scales have. */
function shownUnit(facts: Facts): Unit | null {
  const { unit, dimension } = facts.scales();
  if (dimension === null) return null;
  const shown = dimension.angle === 1 && dimension.length === 0 ? unitWord('deg') : unit;
  return shown?.exact ? shown : null;
}

function coarseScale(facts: Facts, family: FigureFamily, unit: Unit): DividedScale | null {
  const step = sizeOf(facts, facts.scales().hasCircular ? 'linear' : 'main', unit);
  if (step === null) return null;
  const isLength = unit.dimension.length === 1 && unit.dimension.mass === 0 && unit.dimension.time === 0;
  const name = facts.measurement.instrument ?? '';
  return {
    division: step,
    unit: unitShown(unit),
    millimetres: isLength ? R.multiply(unit.factor, R.rational(1000)) : null,
    isAngle: unit.dimension.angle === 1,
    from: null,
    around: family === 'arc' && /spectrometer|theodolite/i.test(name) ? R.rational(360) : null,
  };
}

/** A scale begins at nought where nothing in line lies before it; an arc goes on past it on either side. */
function beginning(
  scale: DividedScale,
  vernier: VernierScale | null,
  stands: readonly Stand[],
): R.Rational | null {
  if (scale.isAngle) return null;
  const isBefore = stands.some(
    stand => R.sign(stand.coarse) < 0 && R.compare(stand.position, R.negate(scale.division)) < 0,
  );
  const meetsBefore = stands.some(
    stand =>
      stand.drum === null &&
      (stand.inLine.some(({ mark }) => R.sign(mark) < 0) || isSharedBefore(stand, vernier)),
  );
  return isBefore || meetsBefore ? null : R.ZERO;
}

/** Whether one of two lines that share the coincidence stands nearest to a mark before nought. */
function isSharedBefore({ between, position }: Stand, vernier: VernierScale | null): boolean {
  if (between === null || vernier === null) return false;
  return [between, between + 1].some(line => {
    const way = R.multiply(vernier.division, R.rational(vernier.backward ? -line : line));
    return R.compare(R.add(position, way), R.negate(R.multiply(vernier.along, R.HALF))) < 0;
  });
}

function drumOf(facts: Facts, unit: Unit): Drum | null {
  const pitch = sizeOf(facts, 'rotation', unit);
  const step = sizeOf(facts, 'circular', unit);
  const count = pitch === null || step === null ? null : R.divide(pitch, step);
  const divisions = count === null ? null : R.toInteger(count);
  if (pitch === null || step === null || divisions === null) return null;
  return 1 < divisions && divisions <= MOST_ROUND ? { divisions, pitch, division: step } : null;
}

function vernierOf(facts: Facts, unit: Unit): VernierScale | null {
  const { vernierBase } = facts.scales();
  const along = sizeOf(facts, vernierBase, unit);
  const own = sizeOf(facts, 'vernier', unit);
  const step = placeOf(facts.term('least count'), unit);
  if (along === null || own === null || step === null || R.sign(step) <= 0) return null;
  const lines = lineCount(facts) ?? linesOfRatio(ratio(facts, 'vernier', vernierBase));
  if (lines === null || lines < 1 || MOST_LINES < lines) return null;
  const span = R.divide(R.multiply(own, R.rational(lines)), along);
  if (span === null || R.compare(span, R.rational(MOST_SPAN)) > 0) return null;
  return { lines, division: own, along, backward: facts.measurement.runsBackward, step };
}

/** `1 VSD = 0.9 mm` names no number of lines: they are in line again after as many as the ratio's denominator. */
function linesOfRatio(share: S.Scalar | null): number | null {
  const value = share === null ? null : S.realValue(share);
  return value === null ? null : R.toInteger(R.rational(R.denominator(value)));
}

function sizeOf(facts: Facts, which: Division, unit: Unit): R.Rational | null {
  const scalar = division(facts, which);
  const value = scalar === null || !S.isExact(scalar) ? null : S.realValue(scalar);
  const size = value === null ? null : R.divide(value, unit.factor);
  return size !== null && R.sign(size) > 0 ? size : null;
}

function placeOf(answer: ReturnType<Facts['term']>, unit: Unit): R.Rational | null {
  if (!answer.ok || !S.isExact(answer.quantity.scalar)) return null;
  const value = S.realValue(answer.quantity.scalar);
  const place = value === null ? null : R.divide(value, unit.factor);
  return place !== null && R.compare(R.abs(place), FARTHEST) <= 0 ? place : null;
}

function turnedDisc(facts: Facts, row: RowNumber): Turned | null {
  const readings = readingsOf(facts, row);
  const way = readings.get('turned');
  if (way?.kind !== 'direction' || !readings.has('final circular reading')) return null;
  const after = circularReading(facts, readings, 'final circular reading');
  const before = readings.has('initial circular reading')
    ? circularReading(facts, readings, 'initial circular reading')
    : null;
  const final = after.ok ? S.realValue(after.quantity.scalar) : null;
  const initial = before === null ? R.ZERO : before.ok ? S.realValue(before.quantity.scalar) : null;
  return final === null || initial === null ? null : { initial, final, toward: way.toward };
}
