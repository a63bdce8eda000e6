import * as R from '../../engine/rational.ts';
import { textWidth } from './captions.ts';
import { type Foot, laidPlace, laidStrokes } from './lay.ts';
import { placeOn, type Strip } from './straight-scale.ts';
import { type Coordinate, coordinate, element, exactly, label, type Svg, together } from './svg.ts';

/**
 * A dimension line from one place to another with its arrowheads inside, or outside where there is no room.
 *
 * An open one comes from beyond the drawing: it begins broken and without an arrowhead.
 */
export function dimensionLine(
  from: R.Rational,
  to: R.Rational,
  y: number,
  isOpen = false,
  foot: Foot = null,
): Svg {
  const width = R.subtract(to, from);
  if (isOpen) {
    const start = R.subtract(from, R.rational(4));
    const solid = R.min(to, R.add(from, R.TEN));
    return element(
      'g',
      { class: 'dimension', 'stroke-width': 0.8 },
      laidStrokes(foot, [[start, y, solid, y]], { 'stroke-dasharray': '2 2' }),
      laidStrokes(foot, [[solid, y, to, y]]),
      arrowhead(to, y, 'right', foot),
    );
  }
  const isWide = R.compare(width, R.rational(16)) >= 0;
  const reach = R.rational(10);
  const lines = isWide
    ? [[from, y, to, y] as const]
    : [
        [R.subtract(from, reach), y, from, y] as const,
        [to, y, R.add(to, reach), y] as const,
        [from, y, to, y] as const,
      ];
  return element(
    'g',
    { class: 'dimension', 'stroke-width': 0.8 },
    laidStrokes(foot, lines),
    arrowhead(from, y, isWide ? 'left' : 'right', foot),
    arrowhead(to, y, isWide ? 'right' : 'left', foot),
  );
}

/** Where a reading is measured from, and the dimension line from there to the mark passed. */
export interface FromNought {
  readonly from: R.Rational;
  readonly line: Svg;
}

/** From nought to a mark; from the torn edge where nought lies before it, and without a line where it lies behind. */
export function fromNought(strip: Strip, mark: R.Rational, y: number): FromNought {
  const isCut = R.sign(strip.from) > 0;
  const isPast = R.sign(strip.to) < 0;
  const from = isCut ? R.rational(strip.left) : isPast ? mark : placeOn(strip, R.ZERO);
  const [low, high] = [R.min(from, mark), R.max(from, mark)];
  const line = R.equals(low, high) ? together() : dimensionLine(low, high, y, isCut, strip.foot);
  return { from, line };
}

function arrowhead(x: R.Rational, y: number, points: 'left' | 'right', foot: Foot): Svg {
  const back = R.add(x, R.rational(points === 'left' ? 6 : -6));
  return filled([laidPlace(foot, x, y), laidPlace(foot, back, y - 2.5), laidPlace(foot, back, y + 2.5)]);
}

/** A filled shape from corner to corner. */
export function filled(corners: readonly (readonly [Coordinate, Coordinate])[]): Svg {
  const d = corners.map(([x, y], at) => `${at === 0 ? 'M' : 'L'}${coordinate(x)} ${coordinate(y)}`).join('');
  return element('path', { d: `${d}Z`, fill: 'currentColor', stroke: 'none' });
}

/** A thin broken line from a mark to its dimension line. */
export function extension(x: Coordinate, from: number, to: number, foot: Foot = null): Svg {
  return laidStrokes(foot, [[x, from, x, to]], {
    class: 'extension',
    'stroke-width': 0.6,
    'stroke-dasharray': '2 2',
  });
}

/** A ring around the place where two marks meet, and a pointer below it with its words. */
export function coincidence(
  x: R.Rational,
  base: number,
  below: number,
  text: string,
  bounds: { readonly left: number; readonly right: number; readonly half: number },
): Svg {
  return element(
    'g',
    { class: 'coincidence' },
    element('rect', {
      x: R.subtract(x, exactly(bounds.half)),
      y: base - 15,
      width: 2 * bounds.half,
      height: 26,
      rx: Math.min(bounds.half, 7),
      'stroke-width': 1.2,
    }),
    filled([
      [x, below],
      [R.subtract(x, R.rational(5)), below + 8],
      [R.add(x, R.rational(5)), below + 8],
    ]),
    label(withinBounds(x, text, bounds), below + 22, text, { 'font-weight': 'bold' }),
  );
}

/** The middle of a text moved so far that it stays inside. */
function withinBounds(
  x: R.Rational,
  text: string,
  { left, right }: { readonly left: number; readonly right: number },
): R.Rational {
  const half = R.rational(Math.ceil(textWidth(text) / 2));
  const low = R.add(R.rational(Math.floor(left)), half);
  const high = R.subtract(R.rational(Math.ceil(right)), half);
  return R.compare(low, high) > 0 ? low : R.max(low, R.min(x, high));
}

/** Lines of text below a drawing. */
export function textLines(lines: readonly (string | null)[], x: number, y: number): Svg {
  return together(
    ...lines
      .filter(line => line !== null)
      .map((line, at) => label(x, y + at * 19, line, { 'text-anchor': 'start' })),
  );
}
