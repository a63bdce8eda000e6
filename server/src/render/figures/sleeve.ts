import * as R from '../../engine/rational.ts';
import { textWidth } from './captions.ts';
import { type Marking, markBefore, markingOf, markNumber, markRank } from './divided-scale.ts';
import type { DividedScale, Stand, VernierScale } from './setting.ts';
import { markPlaces, marksOn, type Strip, tornEdge } from './straight-scale.ts';
import { element, label, type Svg, strokes, together } from './svg.ts';

/** The sleeve of a screw as it is drawn, up to the drum's edge. */
export interface Sleeve {
  readonly strip: Strip;
  readonly marking: Marking;
  /** Whole units above the line and the halves between them below it. */
  readonly hasTwoRows: boolean;
  /** The side of the line on which all marks stand, for a vernier stands on the other; null without one. */
  readonly side: 'above' | 'below' | null;
}

/** Room before the first mark, and least length of a sleeve. */
const ROOM = 34;
const ROOM_FOR_VERNIER = 62;

/** The last part of the sleeve before the edge: from nought, or as much as bears two numbers. */
export function sleeveOf(
  scale: DividedScale,
  stand: Stand,
  left: number,
  base: number,
  vernier: VernierScale | null,
): Sleeve {
  const hasTwoRows = R.equals(R.multiply(scale.division, R.TWO), R.ONE);
  const marking = markingOf(scale, 4, hasTwoRows ? 10 : 9);
  const perDivision = R.rational(Math.max(hasTwoRows ? 13 : 24, Math.ceil(44 / marking.number)));
  const perUnit = R.divide(perDivision, scale.division) ?? R.ONE;
  const passed = markBefore(scale, stand.position);
  const number = Math.floor(passed / marking.number) * marking.number;
  const back = number - marking.number;
  const first = scale.from === null ? back : Math.max(0, back);
  const start = R.multiply(scale.division, R.rational(Math.min(first, passed)));
  const begin = scale.from === null ? start : R.max(start, scale.from);
  const from = R.subtract(
    R.min(begin, stand.position),
    R.divide(R.rational(vernier === null ? ROOM : ROOM_FOR_VERNIER), perUnit) ?? R.ZERO,
  );
  return {
    strip: { from, to: stand.position, perUnit, left, base, foot: null },
    marking,
    hasTwoRows,
    side: vernier === null ? null : vernier.backward ? 'above' : 'below',
  };
}

/** A number at its mark, moved aside where the drum's edge would cut it. */
function numberAt(x: number, y: number, text: string, edge: R.Rational): Svg {
  const room = 3 + Math.ceil(textWidth(text, 12) / 2);
  return label(Math.min(x, R.toNumber(edge) - room), y, text);
}

/** The line, its marks and numbers, and the sleeve's outline; straight where it comes out of the frame. */
export function drawSleeve(scale: DividedScale, sleeve: Sleeve, edge: R.Rational, half: number): Svg {
  const { strip, marking, hasTwoRows, side } = sleeve;
  const { left, base } = strip;
  const marks = marksOn(scale, strip);
  const placeOfMark = markPlaces(scale, strip);
  const reach = (index: number): number => {
    const isHalf = hasTwoRows && index % 2 !== 0;
    const size = markRank(marking, index) === 'unit' ? 22 : isHalf ? 12 : 14;
    return side === 'below' || (isHalf && side === null) ? size : -size;
  };
  const isWhole = scale.from !== null && R.compare(strip.from, scale.from) < 0;
  return together(
    strokes([
      [left, base - half, edge, base - half],
      [left, base + half, edge, base + half],
    ]),
    isWhole
      ? strokes([[left, base - half, left, base + half]], { 'stroke-width': 2 })
      : tornEdge(left, base - half, base + half),
    strokes([[left, base, edge, base]], { class: 'line' }),
    strokes(
      marks.map(index => {
        const x = placeOfMark(index);
        return [x, base, x, base + reach(index)] as const;
      }),
      { class: 'scale', 'stroke-width': 1.5 },
    ),
    element(
      'g',
      { class: 'scale-numbers', 'font-size': 12 },
      ...marks
        .filter(index => index % marking.number === 0)
        .map(index =>
          numberAt(
            placeOfMark(index),
            side === 'below' ? base + 35 : base - 26,
            markNumber(scale, index),
            edge,
          ),
        ),
    ),
  );
}
