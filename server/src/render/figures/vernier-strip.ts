import * as R from '../../engine/rational.ts';
import { laidMarks, laidStrokes } from './lay.ts';
import type { VernierScale } from './setting.ts';
import { clearOf, placeOn, type Strip, tornEdge } from './straight-scale.ts';
import { element, evenly, label, type Svg, together } from './svg.ts';

/** How far the vernier reaches from the edge; numbers beside its lines want more room than below them. */
export const VERNIER_HEIGHT = 42;
export const UPRIGHT_VERNIER = 50;
const PAD = 12;

/** Where a line of the vernier stands on the scale. */
export function linePlace(vernier: VernierScale, zero: R.Rational, line: number): R.Rational {
  return R.add(zero, R.multiply(vernier.division, R.rational(vernier.backward ? -line : line)));
}

/** The lines of a vernier that lie on a strip. */
function linesOn(vernier: VernierScale, zero: R.Rational, strip: Strip): readonly number[] {
  const [low, high] = [strip.from, strip.to].map(
    end => R.divide(R.subtract(end, zero), vernier.division) ?? R.ZERO,
  ) as [R.Rational, R.Rational];
  const [least, most] = vernier.backward ? [R.negate(high), R.negate(low)] : [low, high];
  const first = Math.max(0, R.toInteger(R.ceil(least)) ?? 0);
  const last = Math.min(vernier.lines, R.toInteger(R.floor(most)) ?? vernier.lines);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, at) => first + at);
}

/** The vernier: its lines hanging from the edge, its numbers below them, torn where the strip leaves some out. */
export function vernierStrip(vernier: VernierScale, zero: R.Rational, strip: Strip, every: number): Svg {
  const lines = linesOn(vernier, zero, strip);
  const { base, foot } = strip;
  const along = R.multiply(vernier.division, strip.perUnit);
  const isClear = clearOf(strip);
  const x = evenly(placeOn(strip, zero), vernier.backward ? R.negate(along) : along);
  return together(
    body(vernier, zero, strip),
    laidMarks(
      foot,
      lines.map(line => ({ x: x(line), to: base + lineLength(line, every) })),
      base,
      { class: 'vernier' },
    ),
    element(
      'g',
      { class: 'vernier-numbers', 'font-size': 12 },
      ...lines
        .filter(line => line % every === 0 && (every > 1 || isClear(x(line))))
        .map(line =>
          foot === null
            ? label(x(line), base + 34, String(line))
            : label(base + 25, foot - x(line) + 4, String(line), { 'text-anchor': 'start' }),
        ),
    ),
  );
}

function lineLength(line: number, every: number): number {
  if (every === 1) return line % 5 === 0 ? 20 : 15;
  return line % every === 0 ? 20 : 13;
}

/** The edges of the vernier's plate; torn where it reaches past the strip. */
function body(vernier: VernierScale, zero: R.Rational, strip: Strip): Svg {
  const ends = [linePlace(vernier, zero, 0), linePlace(vernier, zero, vernier.lines)];
  const low = R.min(ends[0]!, ends[1]!);
  const high = R.max(ends[0]!, ends[1]!);
  const isLeftTorn = R.compare(low, strip.from) < 0;
  const isRightTorn = R.compare(strip.to, high) < 0;
  const pad = R.rational(PAD);
  const left = isLeftTorn ? R.rational(strip.left) : R.subtract(placeOn(strip, low), pad);
  const right = isRightTorn ? placeOn(strip, strip.to) : R.add(placeOn(strip, high), pad);
  const { foot, base: top } = strip;
  const bottom = top + (foot === null ? VERNIER_HEIGHT : UPRIGHT_VERNIER);
  return together(
    laidStrokes(foot, [[left, bottom, right, bottom]]),
    isLeftTorn ? tornEdge(left, top, bottom, foot) : laidStrokes(foot, [[left, top, left, bottom]]),
    isRightTorn ? tornEdge(right, top, bottom, foot) : laidStrokes(foot, [[right, top, right, bottom]]),
  );
}
