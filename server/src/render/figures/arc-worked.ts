import * as R from '../../engine/rational.ts';
import {
  type ArcFace,
  arcLabel,
  arcPath,
  directionOf,
  INNER,
  OUTER,
  pieceOf,
  placeAt,
  radial,
} from './arc-panel.ts';
import { type ArcPiece, linePlace } from './arc-plan.ts';
import { textWidth } from './captions.ts';
import type { WorkedWords } from './setting.ts';
import { element, type Svg, strokes, together } from './svg.ts';
import { filled } from './worked-marks.ts';

/** How much room the dimension lines take outside the main scale, and the pointer within the vernier. */
export const OUTSIDE = 44;
export const WITHIN = 30;

/** A ring around the line in line, and a pointer from within with its words. */
export function arcCoincidence(face: ArcFace): Svg {
  const { stand, vernier, plan } = face;
  const drawn = stand.inLine
    .map(({ line }) => ({ line, place: linePlace(vernier, stand, line) }))
    .flatMap(({ line, place }) => {
      const piece = pieceOf(face, place);
      return piece === null ? [] : [{ line, direction: directionOf(face, piece, place) }];
    });
  const half = Math.min(7, plan.perDivision * 0.4);
  if (stand.between !== null) return sharedCoincidence(face, stand.between, half);
  return element(
    'g',
    { class: 'coincidence' },
    ...drawn.map(({ line, direction }) => ringAt(face, direction, half, `line ${line} in line`)),
  );
}

function sharedCoincidence(face: ArcFace, line: number, half: number): Svg {
  const places = [line, line + 1].map(each => linePlace(face.vernier, face.stand, each));
  const piece = pieceOf(face, places[0]!);
  if (piece === null || pieceOf(face, places[1]!) !== piece) return together();
  const [first, second] = places.map(place => directionOf(face, piece, place));
  const middle = (first! + second!) / 2;
  const wide = (Math.abs(second! - first!) * face.plan.radius) / 2 + half;
  return element(
    'g',
    { class: 'coincidence' },
    ringAt(face, middle, wide, `lines ${line} and ${line + 1} equally off`),
  );
}

function ringAt(face: ArcFace, direction: number, half: number, text: string): Svg {
  const { radius } = face.plan;
  const aside = half / radius;
  const corners = [
    placeAt(face, direction - aside, radius - 25),
    placeAt(face, direction - aside, radius + 26),
    placeAt(face, direction + aside, radius + 26),
    placeAt(face, direction + aside, radius - 25),
  ] as const;
  const [x, y] = placeAt(face, direction, radius - INNER - 3);
  const spread = 5 / radius;
  return together(
    element('path', {
      d: `${corners.map(([cx, cy], at) => `${at === 0 ? 'M' : 'L'}${cx.toFixed(2)} ${cy.toFixed(2)}`).join('')}Z`,
      'stroke-width': 1.2,
      'stroke-linejoin': 'round',
    }),
    filled([
      [x, y],
      placeAt(face, direction - spread, radius - INNER - 11),
      placeAt(face, direction + spread, radius - INNER - 11),
    ]),
    arcLabel(face, withinFace(face, direction, text), radius - INNER - 25, text, { 'font-weight': 'bold' }),
  );
}

/** The middle of a text moved so far along the arc that it stays over the drawing. */
function withinFace(face: ArcFace, direction: number, text: string): number {
  const { length, radius } = face.plan;
  const most = Math.max(0, (length - textWidth(text)) / 2) / radius;
  return Math.max(-most, Math.min(direction, most));
}

/** The main scale reading up to its mark, and what the vernier adds up to its zero, along the arc. */
export function arcDimensions(face: ArcFace, words: WorkedWords): Svg {
  const { stand, plan } = face;
  const piece = pieceOf(face, stand.position);
  if (piece === null) return together();
  const left = directionOf(face, piece, piece.from);
  const coarse = directionOf(face, piece, R.max(stand.coarse, piece.from));
  const zero = directionOf(face, piece, stand.position);
  const upper = plan.radius + OUTER + 26;
  const lower = plan.radius + OUTER + 9;
  const isNought = R.equals(stand.coarse, stand.position);
  const right = directionOf(face, piece, piece.to);
  const start = startOf(face, piece);
  const reach = 10 / plan.radius;
  const room = (plan.length / 2 / plan.radius - zero - 1.6 * reach) * plan.radius;
  const isRight = textWidth(words.fine) < room;
  // A text is straight: about its middle it keeps nearest to the arc.
  const aside = (1.2 * reach * plan.radius + textWidth(words.fine) / 2) / lower;
  const beside = isRight ? zero + aside : coarse - aside;
  return element(
    'g',
    { class: 'dimensions' },
    fromNought(face, piece, coarse, upper),
    words.coarse === ''
      ? together()
      : arcLabel(
          face,
          Math.max(withinFace(face, (start + coarse) / 2, words.coarse), Math.min(left, right)),
          upper + 6,
          words.coarse,
        ),
    extension(face, coarse, plan.radius + 26, upper + 4),
    isNought
      ? together()
      : together(
          extension(face, zero, plan.radius, lower + 4),
          element('path', {
            d:
              arcPath(face, coarse - reach, coarse, lower) +
              arcPath(face, coarse, zero, lower) +
              arcPath(face, zero, zero + reach, lower),
            'stroke-width': 0.8,
          }),
          arrowhead(face, coarse, lower, 1),
          arrowhead(face, zero, lower, -1),
          arcLabel(face, beside, lower - 4, words.fine),
        ),
  );
}

/** Where the reading is measured from: nought, or the torn edge that is nearest to it. */
function startOf(face: ArcFace, piece: ArcPiece): number {
  return directionOf(face, piece, R.max(piece.from, R.min(R.ZERO, piece.to)));
}

/** From nought to the mark passed, or from the torn edge before it. */
function fromNought(face: ArcFace, piece: ArcPiece, mark: number, distance: number): Svg {
  const start = startOf(face, piece);
  if (start === mark) return together();
  const way = start < mark ? 1 : -1;
  const isRoomy = Math.abs(mark - start) * distance > 16;
  const isCut = R.sign(piece.from) > 0 || R.sign(piece.to) < 0;
  return together(
    element('path', {
      d: arcPath(face, Math.min(start, mark), Math.max(start, mark), distance),
      'stroke-width': 0.8,
    }),
    arrowhead(face, mark, distance, way),
    isCut || !isRoomy ? together() : arrowhead(face, start, distance, way === 1 ? -1 : 1),
  );
}

/** Points along the arc; `way` is 1 for the way in which the numbers rise. */
function arrowhead(face: ArcFace, direction: number, distance: number, way: 1 | -1): Svg {
  const back = direction - (way * 6) / distance;
  return filled([
    placeAt(face, direction, distance),
    placeAt(face, back, distance - 2.5),
    placeAt(face, back, distance + 2.5),
  ]);
}

function extension(face: ArcFace, direction: number, from: number, to: number): Svg {
  return strokes([radial(face, direction, from, to)], {
    class: 'extension',
    'stroke-width': 0.6,
    'stroke-dasharray': '2 2',
  });
}
