import * as R from '../../engine/rational.ts';
import { cutTo } from './captions.ts';
import { type Marking, markBefore, markingOf } from './divided-scale.ts';
import type { Foot } from './lay.ts';
import type { DividedScale, Stand, VernierScale } from './setting.ts';
import type { Strip } from './straight-scale.ts';
import { linePlace } from './vernier-strip.ts';

/** A strip with how it is marked; `step` is how large a least count comes out on it, for layout only. */
export interface Window {
  readonly strip: Strip;
  readonly marking: Marking;
  readonly step: number;
}

/** Where a window lies on the paper: from where on and how far along the scale, its edge across it. */
export interface Place {
  readonly left: number;
  readonly width: number;
  readonly base: number;
  readonly foot: Foot;
}

/** Divisions are drawn no wider than this. */
const WIDEST = 60;
/** Numbers stand at least so far from one another. */
const NUMBER_ROOM = 36;

/** The window around the whole vernier, with at least two numbers of the main scale in it. */
export function wholeWindow(scale: DividedScale, vernier: VernierScale, stand: Stand, place: Place): Window {
  const ends = [stand.position, linePlace(vernier, stand.position, vernier.lines)] as const;
  const [low, high] = [R.min(...ends), R.max(...ends)];
  let first = markBefore(scale, low) - 1;
  let last = markBefore(scale, high) + 2;
  const isStart = scale.from !== null && first < 0;
  if (isStart) first = 0;
  let marking = markingOf(scale, leastDivisions(place.width, last - first));
  const room = Math.max(2 * (last - first), 24);
  // One counts from the number before the vernier's zero.
  const counted = Math.floor(first / marking.number) * marking.number;
  if (!isStart && 3 * (first - counted) <= last - first) first = counted;
  while (numbersWithin(first, last, marking) < 2 && last - first < room) {
    const before = first - 1 - ((((first - 1) % marking.number) + marking.number) % marking.number);
    const after = Math.ceil((last + 1) / marking.number) * marking.number;
    if (!isStart && first - before <= after - last) first = before;
    else last = after;
  }
  while (numbersWithin(first, last, marking) < 2 && marking.number > 1) {
    marking = markingOf(scale, 1, marking.number - 1);
  }
  // Numbers keep clear of the torn edges.
  const drawn = last - (isStart ? Math.min(first, markBefore(scale, low)) : first);
  const blank = Math.max(8, Math.ceil((150 * drawn) / place.width));
  const margin = R.multiply(scale.division, R.rational(blank, 10n));
  const from = R.subtract(
    isStart ? R.min(low, R.ZERO) : R.multiply(scale.division, R.rational(first)),
    margin,
  );
  const to = R.add(R.multiply(scale.division, R.rational(last)), margin);
  return windowOf(scale, vernier, { from, to, place, marking });
}

/** The least count comes out at least so large where that is possible. */
const VISIBLE = 2.4;

/**
 * A magnified window from one numbered line to the next fifth one, among which the lines meet.
 *
 * All lines of such a group are drawn in the same window, so that its place does not tell which of them it is.
 */
export function lensWindow(scale: DividedScale, vernier: VernierScale, stand: Stand, place: Place): Window {
  const [low, high] = lineGroup(vernier, lineToSee(vernier, stand));
  const spread = Math.max(1, R.toNumber(R.divide(vernier.division, vernier.along) ?? R.ONE));
  const steps = R.toNumber(R.divide(vernier.along, vernier.step) ?? R.ONE);
  const span = (high - low) * R.toNumber(R.divide(vernier.division, vernier.along) ?? R.ONE);
  const perDivision = Math.min(VISIBLE * steps, place.width / Math.max(span + spread, FEWEST));
  const divisions = place.width / perDivision;
  const middle = R.multiply(
    R.add(linePlace(vernier, stand.position, low), linePlace(vernier, stand.position, high)),
    R.HALF,
  );
  const half = R.multiply(scale.division, R.rational(Math.round(divisions * 50), 100n));
  const strip = { from: R.subtract(middle, half), to: R.add(middle, half) };
  const least = Math.max(1, Math.ceil(NUMBER_ROOM / perDivision));
  return windowOf(scale, vernier, { ...strip, place, marking: lensMarking(scale, least, divisions) });
}

const GROUP = 5;
/** So many divisions of the main scale are seen at least. */
const FEWEST = 3;

/** The lines from one fifth to the next between which a line lies; the last ones of a vernier together. */
function lineGroup({ lines }: VernierScale, line: number): readonly [number, number] {
  const low = Math.max(0, Math.min(Math.floor(line / GROUP) * GROUP, lines - GROUP));
  return [low, Math.min(lines, low + GROUP)];
}

/** Numbered as closely as there is room, or closer where fewer than two numbers would be seen. */
function lensMarking(scale: DividedScale, least: number, divisions: number): Marking {
  const most = Math.max(1, Math.floor(divisions / 2));
  const marking = markingOf(scale, least);
  return marking.number <= most ? marking : markingOf(scale, Math.min(least, most), most);
}

/** The line in line that a window is drawn around: of several the first within, of a shared coincidence the lower. */
export function lineToSee(vernier: VernierScale, stand: Stand): number {
  return stand.inLine[0]?.line ?? stand.between ?? nearestLine(vernier, stand.position);
}

/** The line that stands nearest to a mark when the vernier's zero stands at a place. */
export function nearestLine(vernier: VernierScale, zero: R.Rational): number {
  let best = { line: 0, off: vernier.along };
  for (let line = 0; line <= vernier.lines; line++) {
    const past = R.modulo(linePlace(vernier, zero, line), vernier.along);
    const off = R.min(past, R.subtract(vernier.along, past));
    if (R.compare(off, best.off) < 0) best = { line, off };
  }
  return best.line;
}

function windowOf(
  scale: DividedScale,
  vernier: VernierScale,
  drawn: {
    readonly from: R.Rational;
    readonly to: R.Rational;
    readonly place: Place;
    readonly marking: Marking;
  },
): Window {
  const { from, to, place, marking } = drawn;
  const divisions = R.toNumber(R.divide(R.subtract(to, from), scale.division) ?? R.ONE);
  const perDivision = cutTo(Math.min(WIDEST_OF_ALL, place.width / Math.max(divisions, 1)));
  const perUnit = R.divide(perDivision, scale.division) ?? R.ONE;
  const strip = { from, to, perUnit, left: place.left, base: place.base, foot: place.foot };
  return { strip, marking, step: R.toNumber(R.multiply(perUnit, vernier.step)) };
}

const WIDEST_OF_ALL = 200;

function leastDivisions(width: number, divisions: number): number {
  return Math.max(4, Math.ceil(NUMBER_ROOM / Math.min(WIDEST, width / divisions)));
}

function numbersWithin(first: number, last: number, marking: Marking): number {
  return Math.floor(last / marking.number) - Math.ceil(first / marking.number) + 1;
}
