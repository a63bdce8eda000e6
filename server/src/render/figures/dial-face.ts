import * as R from '../../engine/rational.ts';
import { numberedLines } from './divided-scale.ts';
import type { DividedScale, Drum, Stand } from './setting.ts';
import { coordinate, element, label, type Svg, strokes, together } from './svg.ts';
import { filled } from './worked-marks.ts';

/** A dial with its two hands, placed on the paper. */
export interface DialFace {
  readonly scale: DividedScale;
  readonly drum: Drum;
  readonly stand: Stand;
  readonly centre: readonly [number, number];
  /** Of the circle on which the marks of the large dial stand. */
  readonly radius: number;
}

/** The rim lies so far outside the marks; the numbers between both, where no hand lies on them. */
export const RIM = 28;
/** More turns than this no small dial counts. */
const MOST_TURNS = 50;
const FULL = 2 * Math.PI;
/** The small dial is this much of the large one, and so far from its centre. */
const SMALL = 0.32;
const BESIDE = 0.46;

/** How many turns the small dial has: ten, or more where the reading wants them; null past what a dial counts. */
export function turnsOf(scale: DividedScale, stand: Stand): number | null {
  const counted = R.toInteger(R.floor(R.divide(stand.position, scale.division) ?? R.ZERO)) ?? MOST_TURNS;
  const turns = 10 * Math.max(1, Math.ceil((counted + 1) / 10));
  return counted < -1 || turns > MOST_TURNS ? null : turns;
}

/** Draws the rim, both dials and both hands; nothing here tells what they show. */
export function dialFace(face: DialFace, turns: number): Svg {
  const { centre, radius, drum, stand, scale } = face;
  const [x, y] = centre;
  const small = smallFace(face);
  const passed = R.toNumber(R.divide(stand.position, scale.division) ?? R.ZERO);
  return together(
    element('circle', { cx: x, cy: y, r: radius + RIM, 'stroke-width': 2 }),
    element('circle', { cx: x, cy: y, r: radius, 'stroke-width': 0.75 }),
    ring(centre, radius, drum.divisions, drumNumbers(drum), 'drum'),
    element('circle', { cx: small.centre[0], cy: small.centre[1], r: small.radius, 'stroke-width': 0.75 }),
    ring(small.centre, small.radius, turns, turns / 10, 'turns'),
    strokes([hand(small.centre, (FULL * passed) / turns, -6, small.radius - 19)], {
      class: 'small-hand',
      'stroke-width': 1.6,
    }),
    hub(small.centre, 2.5),
    strokes([hand(centre, handDirection(face), -0.12 * radius, radius - 2)], {
      class: 'large-hand',
      'stroke-width': 1.8,
    }),
    hub(centre, 5),
  );
}

/** Where the large hand points, clockwise from nought at the top. */
function handDirection({ stand, drum }: DialFace): number {
  return (FULL * R.toNumber(stand.drum ?? R.ZERO)) / drum.divisions;
}

/** What the hands show: an arc from nought to the large hand with its division, and the turn that has been passed. */
export function dialWorked(face: DialFace, turns: number): Svg {
  const { centre, radius, stand, scale } = face;
  const direction = handDirection(face);
  const outside = radius + RIM + 10;
  const [x1, y1] = around(centre, 0, outside);
  const [x2, y2] = around(centre, direction, outside);
  const size = coordinate(outside);
  const isLong = direction > Math.PI ? 1 : 0;
  const back = direction - 8 / outside;
  const [tx, ty] = around(centre, direction, outside + 15);
  const division = R.toNumber(stand.drum ?? R.ZERO);
  const small = smallFace(face);
  const counted = R.toNumber(R.floor(R.divide(stand.position, scale.division) ?? R.ZERO));
  return element(
    'g',
    { class: 'coincidence' },
    direction * outside < 10
      ? together()
      : together(
          element('path', {
            d: `M${coordinate(x1)} ${coordinate(y1)}A${size} ${size} 0 ${isLong} 1 ${coordinate(x2)} ${coordinate(y2)}`,
            'stroke-width': 0.8,
          }),
          strokes([[...around(centre, 0, radius + RIM + 2), ...around(centre, 0, outside + 5)]], {
            'stroke-width': 0.8,
          }),
          filled([[x2, y2], around(centre, back, outside - 3), around(centre, back, outside + 3)]),
        ),
    label(tx, ty + 4.5, String(division), { 'font-weight': 'bold' }),
    strokes([hand(small.centre, (FULL * counted) / turns, small.radius - 7, small.radius + 5)], {
      'stroke-width': 3,
    }),
  );
}

function smallFace(face: DialFace): { readonly centre: readonly [number, number]; readonly radius: number } {
  const [x, y] = face.centre;
  // Above the centre where the large hand would lie on it.
  const isBelow = Math.abs(handDirection(face) - Math.PI) > 0.76;
  const away = BESIDE * face.radius * (isBelow ? 1 : -1);
  return { centre: [x, y + away], radius: SMALL * face.radius };
}

/** Every so many divisions a number, so that at most some twenty stand around the dial. */
export function drumNumbers(drum: Drum): number {
  let every = numberedLines(drum.divisions);
  while (drum.divisions / every > 24) every *= 2;
  return every;
}

function ring(
  centre: readonly [number, number],
  radius: number,
  divisions: number,
  every: number,
  name: string,
): Svg {
  const isSmall = name === 'turns';
  const lengths = isSmall ? [7, 5, 4] : [15, 12, 8];
  const half = every % 2 === 0 ? every / 2 : every;
  const marks = Array.from({ length: divisions }, (_, index) => ({
    index,
    direction: (FULL * index) / divisions,
  }));
  return together(
    strokes(
      marks.map(({ index, direction }) => {
        const length = index % every === 0 ? lengths[0]! : index % half === 0 ? lengths[1]! : lengths[2]!;
        return [...around(centre, direction, radius), ...around(centre, direction, radius - length)] as const;
      }),
      { class: name },
    ),
    element(
      'g',
      { class: `${name}-numbers`, 'font-size': isSmall ? 10 : 12 },
      ...marks
        .filter(({ index }) => index % every === 0)
        .map(({ index, direction }) => {
          const [x, y] = around(centre, direction, radius + (isSmall ? -13 : 15));
          return label(x, y + (isSmall ? 3.5 : 4), String(index));
        }),
    ),
  );
}

function hand(
  centre: readonly [number, number],
  direction: number,
  from: number,
  to: number,
): readonly [number, number, number, number] {
  return [...around(centre, direction, from), ...around(centre, direction, to)];
}

function hub([x, y]: readonly [number, number], radius: number): Svg {
  return element('circle', { cx: x, cy: y, r: radius, fill: 'currentColor', stroke: 'none' });
}

function around(
  [x, y]: readonly [number, number],
  direction: number,
  distance: number,
): readonly [number, number] {
  return [x + distance * Math.sin(direction), y - distance * Math.cos(direction)];
}
