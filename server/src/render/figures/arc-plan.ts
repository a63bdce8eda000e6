import * as R from '../../engine/rational.ts';
import { type Marking, markingOf, numberedLines } from './divided-scale.ts';
import type { DividedScale, Stand, VernierScale } from './setting.ts';

/** A stretch of the main scale that is drawn: values in degrees, and how far along the arc it begins. */
export interface ArcPiece {
  readonly from: R.Rational;
  readonly to: R.Rational;
  /** In drawn units, measured along the arc from the left end of the first piece. */
  readonly start: number;
}

/** Which stretches of an arc are drawn and how large; one piece where all of the vernier finds room, else two. */
export interface ArcPlan {
  readonly pieces: readonly ArcPiece[];
  /** Drawn units for one division of the main scale. */
  readonly perDivision: number;
  /** All pieces with the gaps between them, along the arc. */
  readonly length: number;
  readonly radius: number;
  readonly marking: Marking;
  /** Every how many lines the vernier is numbered. */
  readonly numberedLines: number;
}

/** A least count should be as wide as this, so that lines beside the one in line are seen to be off. */
const VISIBLE_STEP = 1.25;
const GAP = 26;
/** A number keeps this far from a torn edge. */
export const NUMBER_ROOM = 26;
const LARGEST_DIVISION = 60;
const SMALLEST_DIVISION = 14;
/** A vernier of few lines is drawn no shorter than about this. */
const SHORT_VERNIER = 260;
/** Below this two marks run into one. */
const LEAST_DIVISION = 4;

/** Plans the window around a reading; null where no arc of this width can show it. */
export function arcPlan(
  scale: DividedScale,
  vernier: VernierScale,
  stand: Stand,
  width: number,
): ArcPlan | null {
  const wanted = VISIBLE_STEP * toNumber(R.divide(scale.division, vernier.step) ?? R.ONE);
  const span = vernier.lines * toNumber(R.divide(vernier.division, scale.division) ?? R.ONE);
  const roomy = SHORT_VERNIER / (span + 2);
  const largest = Math.min(Math.max(wanted, SMALLEST_DIVISION, roomy), LARGEST_DIVISION);
  const whole = laidOut(
    scale,
    [wholeWindow(scale, vernier, stand, markingFor(scale, largest), largest)],
    largest,
    width,
  );
  if (whole !== null && whole.perDivision >= Math.min(wanted, largest) * 0.9)
    return { ...whole, numberedLines: numberedLines(vernier.lines) };
  const group = lineGroup(vernier, stand);
  const marking = markingFor(scale, largest);
  const zero = zeroWindow(scale, vernier, stand, marking, largest);
  const torn = laidOut(scale, joined(scale, zero, groupWindow(scale, vernier, stand, group)), largest, width);
  return torn === null ? null : { ...torn, marking, numberedLines: vernier.lines <= 5 ? 1 : 5 };
}

/** Where line k of the vernier stands on the main scale. */
export function linePlace(vernier: VernierScale, stand: Stand, line: number): R.Rational {
  const way = R.multiply(vernier.division, R.rational(line));
  return vernier.backward ? R.subtract(stand.position, way) : R.add(stand.position, way);
}

/** How far the vernier's plate reaches beyond its outer lines, in degrees. */
export function plateEnd(scale: DividedScale, perDivision: number): R.Rational {
  return R.multiply(scale.division, R.rational(Math.round(1000 * Math.max(0.4, 14 / perDivision)), 1000));
}

interface Stretch {
  readonly from: R.Rational;
  readonly to: R.Rational;
}

function wholeWindow(
  scale: DividedScale,
  vernier: VernierScale,
  stand: Stand,
  marking: Marking,
  perDivision: number,
): Stretch {
  const first = linePlace(vernier, stand, 0);
  const last = linePlace(vernier, stand, vernier.lines);
  const zero = zeroWindow(scale, vernier, stand, marking, perDivision);
  const margin = R.add(plateEnd(scale, perDivision), R.multiply(scale.division, R.HALF));
  return {
    from: R.min(zero.from, R.subtract(R.min(first, last), margin)),
    to: R.max(zero.to, R.add(R.max(first, last), margin)),
  };
}

/** Around the vernier's zero, as far as the nearest number of the main scale. */
function zeroWindow(
  scale: DividedScale,
  vernier: VernierScale,
  stand: Stand,
  marking: Marking,
  perDivision: number,
): Stretch {
  const numbered = R.multiply(scale.division, R.rational(marking.number));
  const below = R.subtract(stand.coarse, R.modulo(stand.coarse, numbered));
  const above = R.add(below, numbered);
  const isBelow = R.compare(R.subtract(stand.position, below), R.subtract(above, stand.position)) <= 0;
  const margin = R.multiply(
    scale.division,
    R.rational(Math.ceil(Math.max(0.7, NUMBER_ROOM / perDivision) * 10), 10),
  );
  const next = linePlace(vernier, stand, Math.min(1, vernier.lines));
  const reach = R.add(stand.coarse, scale.division);
  const low = R.min(R.min(stand.coarse, isBelow ? below : stand.coarse), next);
  const high = R.max(R.max(reach, isBelow ? reach : above), next);
  return { from: R.subtract(low, margin), to: R.add(high, margin) };
}

/** From one numbered line to the next, and one more on either side: the line in line is somewhere between. */
function lineGroup(vernier: VernierScale, stand: Stand): readonly [number, number] {
  const lines = stand.inLine.map(({ line }) => line);
  const line = lines.find(each => each > 0 && each < vernier.lines) ?? stand.between ?? lines.at(-1) ?? 0;
  const low = Math.floor(line / 5) * 5 - 1;
  return [Math.max(0, Math.min(low, vernier.lines - 6)), Math.min(vernier.lines, low + 7)];
}

function groupWindow(
  scale: DividedScale,
  vernier: VernierScale,
  stand: Stand,
  [low, high]: readonly [number, number],
): Stretch {
  const a = linePlace(vernier, stand, low);
  const b = linePlace(vernier, stand, high);
  const margin = R.multiply(scale.division, R.rational(4, 10));
  return { from: R.subtract(R.min(a, b), margin), to: R.add(R.max(a, b), margin) };
}

/** Two windows in the order of the scale, or one where hardly anything lies between them. */
function joined(scale: DividedScale, one: Stretch, other: Stretch): readonly Stretch[] {
  const [low, high] = R.compare(one.from, other.from) <= 0 ? [one, other] : [other, one];
  const between = R.subtract(high.from, low.to);
  return R.compare(between, scale.division) <= 0
    ? [{ from: low.from, to: R.max(low.to, high.to) }]
    : [low, high];
}

function laidOut(
  scale: DividedScale,
  stretches: readonly Stretch[],
  largest: number,
  width: number,
): Omit<ArcPlan, 'numberedLines'> | null {
  const divisions = stretches.map(({ from, to }) =>
    toNumber(R.divide(R.subtract(to, from), scale.division)!),
  );
  const all = divisions.reduce((sum, count) => sum + count, 0);
  const gaps = GAP * (stretches.length - 1);
  const perDivision = Math.min(largest, (width - gaps) / all);
  if (!(perDivision >= LEAST_DIVISION)) return null;
  let start = 0;
  const pieces = stretches.map((stretch, index) => {
    const piece = { ...stretch, start };
    start += divisions[index]! * perDivision + GAP;
    return piece;
  });
  const length = all * perDivision + gaps;
  return {
    pieces,
    perDivision,
    length,
    radius: Math.max(420, length * 1.5),
    marking: markingFor(scale, perDivision),
  };
}

/** Numbers stand some fifty drawn units apart or more. */
function markingFor(scale: DividedScale, perDivision: number): Marking {
  const least = Math.max(1, Math.ceil(54 / perDivision));
  return markingOf(scale, least, Math.max(least + 2, Math.ceil(190 / perDivision)));
}

const toNumber = R.toNumber;
