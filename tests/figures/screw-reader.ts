import { ofClass, type Piece, strokesOf, textsOf, theOnly } from './read-figure.ts';
import { numberOf } from './straight-reader.ts';

/** What a student sees on a screw. */
export interface SeenScrew {
  /** The last mark of the sleeve that the drum's edge has passed; NaN where none is in sight. */
  readonly coarse: number;
  /** The division on the line, by the nearest numbers; between two in the same share as their heights. */
  readonly drum: number;
  /** Lines of a vernier, each with the nearest division of the drum and how far it is off it, in drum divisions. */
  readonly lines: readonly { readonly line: number; readonly division: number; readonly off: number }[];
}

const NEAR = 0.0002;

/** `division` of the sleeve and how many stand round the drum are told in the question. */
export function seeScrew(panel: Piece, division: number, round: number): SeenScrew {
  const edge = strokesOf(panel, 'edge')[0]!;
  const flat = ofClass(panel, 'unrolled')[0] ?? null;
  const finest = flat ?? theOnly(ofClass(panel, 'finest'), 'finest');
  const drum = drumOf(finest, round);
  const line = flat === null || strokesOf(flat, 'line').length === 0 ? null : strokesOf(flat, 'line')[0]!.y1;
  const lines = verniersOf(finest);
  const at = line ?? lines.find(each => each.line === 0)?.y ?? strokesOf(panel, 'line')[0]!.y1;
  const radius = (edge.y2 - edge.y1) / 2;
  const middle = (edge.y2 + edge.y1) / 2;
  // On the drum itself heights are foreshortened: unroll them.
  const around = (y: number): number =>
    flat === null ? (Math.asin((middle - y) / radius) * round) / (2 * Math.PI) : y;
  const below = drum.filter(mark => mark.y >= at - NEAR).sort((a, b) => a.y - b.y)[0]!;
  const above = drum.filter(mark => mark.y < at - NEAR).sort((a, b) => b.y - a.y)[0]!;
  const share = (around(at) - around(below.y)) / (around(above.y) - around(below.y));
  const room = (drum[0]!.y - drum.at(-1)!.y) / (drum.length - 1);
  return {
    coarse: coarseOf(panel, edge.x1, division),
    drum: below.number + (Math.abs(share) < 1e-4 ? 0 : share),
    lines: lines.map(({ line: number, y }) => {
      const mark = drum.reduce((near, each) => (Math.abs(each.y - y) < Math.abs(near.y - y) ? each : near));
      return { line: number, division: mark.number, off: (mark.y - y) / room };
    }),
  };
}

function coarseOf(panel: Piece, edge: number, division: number): number {
  const marks = strokesOf(panel, 'scale')
    .map(stroke => stroke.x1)
    .sort((a, b) => a - b);
  const named = textsOf(panel, 'scale-numbers')
    .map(({ x, text }) => ({ value: numberOf(text), at: marks.findIndex(mark => Math.abs(mark - x) < NEAR) }))
    .find(({ at }) => at >= 0);
  const last = marks.findLastIndex(x => x <= edge + NEAR);
  if (named === undefined) return marks.length === 1 ? 0 : Number.NaN;
  return named.value + (last - named.at) * division;
}

/** The divisions of the drum from below, counted from one that bears a number. */
function drumOf(finest: Piece, round: number): readonly { readonly number: number; readonly y: number }[] {
  const ys = strokesOf(finest, 'drum')
    .map(stroke => stroke.y1)
    .sort((a, b) => b - a);
  const numbers = textsOf(finest, 'drum-numbers');
  const named = numbers.map(({ y, text }) => ({ number: Number(text), at: nearest(ys, y - 4) }))[0]!;
  return ys.map((y, index) => ({ number: (((named.number + index - named.at) % round) + round) % round, y }));
}

function verniersOf(finest: Piece): readonly { readonly line: number; readonly y: number }[] {
  const ys = strokesOf(finest, 'vernier')
    .map(stroke => stroke.y1)
    .sort((a, b) => b - a);
  const [first, second] = textsOf(finest, 'vernier-numbers').map(({ y, text }) => ({
    line: Number(text),
    at: nearest(ys, y - 4),
  }));
  if (first === undefined || second === undefined) return [];
  const way = (second.line - first.line) / (second.at - first.at);
  return ys.map((y, index) => ({ line: first.line + (index - first.at) * way, y }));
}

function nearest(places: readonly number[], y: number): number {
  return places.reduce(
    (best, place, at) => (Math.abs(place - y) < Math.abs(places[best]! - y) ? at : best),
    0,
  );
}
