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
  /** Whether all of the vernier is drawn. */
  readonly isWhole: boolean;
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
    return { ...whole, isWhole: true, numberedLines: numberedLines(vernier.lines) };
  const group = lineGroup(vernier, stand);
  const marking = markingFor(scale, largest);
  const slid = groupWindow(scale, vernier, stand.position, stand.position, group);
  const all = groupWindow(scale, vernier, stand.coarse, R.add(stand.coarse, scale.division), group);
  const torn = settled(largest, perDivision => {
    const zero = zeroWindow(scale, vernier, stand, marking, perDivision);
    return laidOut(scale, joined(scale, zero, slid, all), largest, width);
  });
  return torn === null
    ? null
    : { ...torn, isWhole: false, marking, numberedLines: vernier.lines <= 5 ? 1 : 5 };
}

/**
 * Lays out again with the size that came out, until hardly anything changes: a number wants more divisions around it
 * in a smaller drawing, which makes that smaller still.
 */
function settled<T extends { readonly perDivision: number }>(
  size: number,
  layOut: (perDivision: number) => T | null,
): T | null {
  const plan = layOut(size);
  return plan === null || plan.perDivision >= 0.95 * size ? plan : settled(plan.perDivision, layOut);
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
  // As far as the vernier may reach while its zero stands in this division, so that the size does not tell where.
  const span = R.multiply(vernier.division, R.rational(vernier.lines));
  const reach = R.add(stand.coarse, scale.division);
  const low = vernier.backward ? R.subtract(stand.coarse, span) : stand.coarse;
  const high = vernier.backward ? reach : R.add(reach, span);
  const zero = zeroWindow(scale, vernier, stand, marking, perDivision);
  const margin = R.add(plateEnd(scale, perDivision), R.multiply(scale.division, R.HALF));
  return {
    from: R.min(zero.from, R.subtract(low, margin)),
    to: R.max(zero.to, R.add(high, margin)),
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
  // By the mark alone: how far past it the zero stands is what is asked for.
  const isBelow = R.compare(R.subtract(stand.coarse, below), R.subtract(above, stand.coarse)) < 0;
  const margin = R.multiply(
    scale.division,
    R.rational(Math.ceil(Math.max(0.7, NUMBER_ROOM / perDivision) * 10), 10),
  );
  const reach = R.add(stand.coarse, scale.division);
  const next = vernier.backward ? R.subtract(stand.coarse, vernier.division) : R.add(reach, vernier.division);
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

/** Around a group of lines while the vernier's zero stands anywhere between two places. */
function groupWindow(
  scale: DividedScale,
  vernier: VernierScale,
  least: R.Rational,
  most: R.Rational,
  lines: readonly [number, number],
): Stretch {
  const [low, high] = lines.map(line => {
    const way = R.multiply(vernier.division, R.rational(line));
    return vernier.backward ? R.negate(way) : way;
  }) as [R.Rational, R.Rational];
  const margin = R.multiply(scale.division, R.rational(4, 10));
  return {
    from: R.subtract(R.add(least, R.min(low, high)), margin),
    to: R.add(R.add(most, R.max(low, high)), margin),
  };
}

/**
 * Two windows in the order of the scale, or one where hardly anything lies between them.
 *
 * `slid` is the group of lines where it stands, `all` as far as it may reach while the zero stands in its division: by
 * that it is decided, and so wide is one window for both, so that neither tells which line is in line.
 */
function joined(scale: DividedScale, zero: Stretch, slid: Stretch, all: Stretch): readonly Stretch[] {
  const isAfter = R.compare(zero.from, all.from) <= 0;
  const between = isAfter ? R.subtract(all.from, zero.to) : R.subtract(zero.from, all.to);
  if (R.compare(between, scale.division) <= 0)
    return [{ from: R.min(zero.from, all.from), to: R.max(zero.to, all.to) }];
  return isAfter ? [zero, slid] : [slid, zero];
}

function laidOut(
  scale: DividedScale,
  stretches: readonly Stretch[],
  largest: number,
  width: number,
): Omit<ArcPlan, 'isWhole' | 'numberedLines'> | null {
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
