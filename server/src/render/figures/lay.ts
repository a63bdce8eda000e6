import * as R from '../../engine/rational.ts';
import { type Attributes, type Coordinate, coordinate, element, type Svg, strokes } from './svg.ts';

/**
 * Which way a straight scale lies on the paper: null with its numbers rising to the right and the vernier below it, or
 * upright with them rising from this height on and the vernier to its right.
 *
 * What is drawn on it has a place along the scale and one across it, from the main scale's side to the vernier's.
 */
export type Foot = number | null;

export type LaidStroke = readonly [
  along1: Coordinate,
  across1: Coordinate,
  along2: Coordinate,
  across2: Coordinate,
];

/** Straight strokes, each from one place of the scale to another. */
export function laidStrokes(foot: Foot, lines: readonly LaidStroke[], attributes: Attributes = {}): Svg {
  if (foot === null) return strokes(lines, attributes);
  return strokes(
    lines.map(
      ([along1, across1, along2, across2]) =>
        [across1, heightOn(foot, along1), across2, heightOn(foot, along2)] as const,
    ),
    attributes,
  );
}

/** Marks that all stand on one edge: each along the scale, and how far across it reaches. */
export function laidMarks(
  foot: Foot,
  marks: readonly { readonly x: number; readonly to: number }[],
  base: number,
  attributes: Attributes,
): Svg {
  const edge = coordinate(base);
  let d = '';
  for (const { x, to } of marks) {
    const place = coordinate(foot === null ? x : foot - x);
    const end = coordinate(to);
    d += foot === null ? `M${place} ${edge}L${place} ${end}` : `M${edge} ${place}L${end} ${place}`;
  }
  return d === '' ? ('' as Svg) : element('path', { d, ...attributes });
}

/** A place of the scale on the paper. */
export function laidPlace(
  foot: Foot,
  along: Coordinate,
  across: Coordinate,
): readonly [Coordinate, Coordinate] {
  return foot === null ? [along, across] : [across, heightOn(foot, along)];
}

/** How high on the paper something lies along an upright scale. */
export function heightOn(foot: number, along: Coordinate): Coordinate {
  return typeof along === 'number' ? foot - along : R.subtract(R.rational(foot), along);
}
