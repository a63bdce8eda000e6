import * as R from '../../engine/rational.ts';
import { type ArcPiece, type ArcPlan, linePlace, NUMBER_ROOM, plateEnd } from './arc-plan.ts';
import { angleText } from './arc-words.ts';
import { markRank } from './divided-scale.ts';
import type { DividedScale, Stand, VernierScale } from './setting.ts';
import { coordinate, element, label, type Svg, strokes, together } from './svg.ts';

/** One instrument with its arc, placed on the paper: the two plates, their marks and numbers. */
export interface ArcFace {
  readonly scale: DividedScale;
  readonly vernier: VernierScale;
  readonly stand: Stand;
  readonly plan: ArcPlan;
  /** The centre of all its arcs. */
  readonly centre: readonly [number, number];
}

/** How far the main scale's plate reaches beyond the dividing arc, and the vernier's within it. */
export const OUTER = 50;
export const INNER = 46;
const MAIN_MARKS = { unit: 24, half: 18, tenth: 13, fine: 13 } as const;
const LINE = 14;
const NUMBERED_LINE = 22;

/** How high the face is, from the top of the main scale's plate to the lowest corner of the vernier's. */
export function faceHeight(plan: ArcPlan): number {
  const half = plan.length / 2 / plan.radius;
  return plan.radius + OUTER - (plan.radius - INNER) * Math.cos(half);
}

/** How wide the face is, at the top of the main scale's plate. */
export function faceWidth(plan: ArcPlan): number {
  return 2 * (plan.radius + OUTER) * Math.sin(plan.length / 2 / plan.radius);
}

/** Draws the plates, marks and numbers; nothing here tells which line is in line. */
export function arcPanel(face: ArcFace): Svg {
  return together(
    ...face.plan.pieces.map(piece =>
      together(mainMarks(face, piece), vernierLines(face, piece), plates(face, piece)),
    ),
  );
}

/** The direction of a place on the scale, as an angle from the upright; exact places give the same figure. */
export function directionOf(face: ArcFace, piece: ArcPiece, place: R.Rational): number {
  const { plan, scale } = face;
  const divisions = R.toNumber(R.divide(R.subtract(place, piece.from), scale.division) ?? R.ZERO);
  return (piece.start + divisions * plan.perDivision - plan.length / 2) / plan.radius;
}

/** The place so far from the centre in a direction. */
export function placeAt(face: ArcFace, direction: number, distance: number): readonly [number, number] {
  const [x, y] = face.centre;
  return [x + distance * Math.sin(direction), y - distance * Math.cos(direction)];
}

/** A stroke straight out from the centre. */
export function radial(
  face: ArcFace,
  direction: number,
  from: number,
  to: number,
): readonly [number, number, number, number] {
  return [...placeAt(face, direction, from), ...placeAt(face, direction, to)];
}

/** A text along the arc. */
export function arcLabel(
  face: ArcFace,
  direction: number,
  distance: number,
  text: string,
  attributes: Readonly<Record<string, string | number>> = {},
): Svg {
  const [x, y] = placeAt(face, direction, distance);
  const turn = `rotate(${coordinate((direction * 180) / Math.PI)} ${coordinate(x)} ${coordinate(y)})`;
  return label(x, y, text, { transform: turn, ...attributes });
}

/** Part of a circle round the centre, from one direction to another. */
export function arcPath(face: ArcFace, from: number, to: number, distance: number): string {
  const [x1, y1] = placeAt(face, from, distance);
  const [x2, y2] = placeAt(face, to, distance);
  const radius = coordinate(distance);
  return `M${coordinate(x1)} ${coordinate(y1)}A${radius} ${radius} 0 0 1 ${coordinate(x2)} ${coordinate(y2)}`;
}

/** The piece in which a place is drawn; null where it is left out. */
export function pieceOf(face: ArcFace, place: R.Rational): ArcPiece | null {
  return (
    face.plan.pieces.find(({ from, to }) => R.compare(from, place) <= 0 && R.compare(place, to) <= 0) ?? null
  );
}

function mainMarks(face: ArcFace, piece: ArcPiece): Svg {
  const { scale, plan } = face;
  const first = R.toInteger(R.ceil(R.divide(piece.from, scale.division) ?? R.ZERO)) ?? 0;
  const last = R.toInteger(R.floor(R.divide(piece.to, scale.division) ?? R.ZERO)) ?? -1;
  const indices = Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => first + index);
  const hasRoom = roomIn(face, piece);
  const directions = new Map(
    indices.map(index => [index, directionOf(face, piece, R.multiply(scale.division, R.rational(index)))]),
  );
  return together(
    strokes(
      indices.map(index =>
        radial(
          face,
          directions.get(index)!,
          plan.radius,
          plan.radius + MAIN_MARKS[markRank(plan.marking, index)],
        ),
      ),
      { class: 'scale' },
    ),
    element(
      'g',
      { class: 'scale-numbers', 'font-size': 12 },
      ...indices
        .filter(
          index => index % plan.marking.number === 0 && hasRoom(directions.get(index)!, NUMBER_ROOM - 4),
        )
        .map(index =>
          arcLabel(
            face,
            directions.get(index)!,
            plan.radius + 31,
            angleText(R.multiply(scale.division, R.rational(index)), scale.around),
          ),
        ),
    ),
  );
}

function vernierLines(face: ArcFace, piece: ArcPiece): Svg {
  const { vernier, stand, plan } = face;
  const seen = Array.from({ length: vernier.lines + 1 }, (_, line) => ({
    line,
    place: linePlace(vernier, stand, line),
  }))
    .filter(({ place }) => R.compare(piece.from, place) <= 0 && R.compare(place, piece.to) <= 0)
    .map(({ line, place }) => ({ line, direction: directionOf(face, piece, place) }));
  const hasRoom = roomIn(face, piece);
  const isNumbered = (line: number) => line % plan.numberedLines === 0 || line === vernier.lines;
  return together(
    strokes(
      seen.map(({ line, direction }) =>
        radial(face, direction, plan.radius, plan.radius - (isNumbered(line) ? NUMBERED_LINE : LINE)),
      ),
      { class: 'vernier' },
    ),
    element(
      'g',
      { class: 'vernier-numbers', 'font-size': 12 },
      ...seen
        .filter(({ line, direction }) => isNumbered(line) && hasRoom(direction, 10))
        .map(({ line, direction }) => arcLabel(face, direction, plan.radius - 36, String(line))),
    ),
  );
}

/** Whether a number in a direction keeps so far from the torn edges. */
function roomIn(face: ArcFace, piece: ArcPiece): (direction: number, room: number) => boolean {
  const left = directionOf(face, piece, piece.from);
  const right = directionOf(face, piece, piece.to);
  return (direction, room) => Math.min(direction - left, right - direction) * face.plan.radius >= room;
}

/** The edges of both plates: whole where a plate ends, torn where it goes on. */
function plates(face: ArcFace, piece: ArcPiece): Svg {
  const { plan, vernier, stand, scale } = face;
  const left = directionOf(face, piece, piece.from);
  const right = directionOf(face, piece, piece.to);
  const edge = plateEnd(scale, plan.perDivision);
  const zero = linePlace(vernier, stand, 0);
  const last = linePlace(vernier, stand, vernier.lines);
  const begins = R.subtract(R.min(zero, last), edge);
  const ends = R.add(R.max(zero, last), edge);
  const isBegun = R.compare(begins, piece.from) <= 0;
  const isOpen = R.compare(piece.to, ends) <= 0;
  const from = isBegun ? left : directionOf(face, piece, begins);
  const to = isOpen ? right : directionOf(face, piece, ends);
  const inner = plan.radius - INNER;
  const outer = plan.radius + OUTER;
  const hasVernier = from < to;
  const torn = [
    tornEdge(face, left, isBegun && hasVernier ? inner : plan.radius, outer),
    tornEdge(face, right, isOpen && hasVernier ? inner : plan.radius, outer),
  ];
  const whole = [
    ...(isBegun || !hasVernier ? [] : [radial(face, from, plan.radius, inner)]),
    ...(isOpen || !hasVernier ? [] : [radial(face, to, plan.radius, inner)]),
  ];
  const arcs = [arcPath(face, left, right, plan.radius), arcPath(face, left, right, outer)];
  if (hasVernier) arcs.push(arcPath(face, from, to, inner));
  return together(
    element('path', { d: arcs.join('') }),
    whole.length === 0 ? together() : strokes(whole, { 'stroke-width': 1.5 }),
    element('path', { d: torn.join(''), class: 'torn', 'stroke-width': 0.75 }),
  );
}

/** A zigzag straight out from the centre: the scale goes on where the drawing does not. */
function tornEdge(face: ArcFace, direction: number, from: number, to: number): string {
  const teeth = Math.max(2, 2 * Math.round((to - from) / 18));
  const sway = 4 / face.plan.radius;
  return Array.from({ length: teeth + 1 }, (_, tooth) => {
    const aside = tooth === 0 || tooth === teeth ? 0 : tooth % 2 === 0 ? sway : -sway;
    const [x, y] = placeAt(face, direction + aside, from + ((to - from) * tooth) / teeth);
    return `${tooth === 0 ? 'M' : 'L'}${coordinate(x)} ${coordinate(y)}`;
  }).join('');
}
