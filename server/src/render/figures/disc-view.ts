import * as R from '../../engine/rational.ts';
import { textWidth, widestOf } from './captions.ts';
import { type Marking, markBefore, markNumber, markRank, numberedLines } from './divided-scale.ts';
import type { DividedScale, Drum } from './setting.ts';
import { coordinate, element, label, type Svg, strokes, together } from './svg.ts';
import { filled } from './worked-marks.ts';

/** A disc beside its column as one looks at its edge, a little from above. */
export interface DiscView {
  readonly scale: DividedScale;
  readonly drum: Drum;
  /** How high the disc's upper edge stands on the column, and its division at the column's edge. */
  readonly position: R.Rational;
  readonly division: R.Rational;
  /** The stretch of the column that is drawn; `perDivision` units of the drawing to a division. */
  readonly from: R.Rational;
  readonly to: R.Rational;
  readonly perDivision: number;
  readonly marking: Marking;
  /** A column without figures: the disc is read alone. */
  readonly isBare: boolean;
  /** Where the column's reading edge is, and the top of the drawing. */
  readonly x: number;
  readonly top: number;
  /** How far the disc is drawn to either side. */
  readonly reach: number;
}

/** Divisions near the column's edge are drawn no narrower than this. */
const NARROWEST = 4;

/** Half of the disc's width; more than its reach where the drawing tears it off so that its divisions are seen. */
function halfWidth({ drum, reach }: Pick<DiscView, 'drum' | 'reach'>): number {
  return Math.max(reach, Math.ceil((NARROWEST * drum.divisions) / (2 * Math.PI)));
}

/** Every how many divisions the disc is numbered: so that two numbers are always in sight, and none covers the next. */
export function discNumbers(view: Pick<DiscView, 'drum' | 'reach'>): number {
  const { divisions } = view.drum;
  const apart = (2 * Math.PI * halfWidth(view)) / divisions;
  let every = numberedLines(divisions);
  while (every * apart < 36) every *= 2;
  const most = 0.65 * view.reach;
  const isRoomy = (finer: number): boolean =>
    divisions % finer === 0 && 24 <= finer * apart && finer * apart <= most;
  return every * apart <= most ? every : ([10, 5, 4, 3, 2, 1].find(isRoomy) ?? 1);
}

const COLUMN = 50;
/** How far a number of the column keeps from its reading edge. */
const NUMBER_AT = 24;
const TILT = 24;
/** Marks nearer to one another than this run into one. */
const LEAST_APART = 1.4;
/** How deep the disc's edge is. */
const DEPTH = 42;
const MARKS = { unit: 20, half: 15, tenth: 10, fine: 10 } as const;

/** How wide the column is: its numbers find room on it. */
function columnWidth({ scale, from, to, marking, isBare }: DiscView): number {
  const [first, last] = [from, to].map(value => Math.ceil(markBefore(scale, value) / marking.number)) as [
    number,
    number,
  ];
  const numbers = Array.from({ length: last - first + 1 }, (_, at) =>
    markNumber(scale, (first + at) * marking.number),
  );
  return isBare ? COLUMN : Math.max(COLUMN, NUMBER_AT + 5 + Math.ceil(widestOf(numbers, 12)));
}

/** Where a value of the column lies on the paper; higher values stand higher. */
export function columnPlace(view: DiscView, value: R.Rational): number {
  const divisions = R.divide(R.subtract(view.to, value), view.scale.division) ?? R.ZERO;
  return view.top + R.toNumber(divisions) * view.perDivision;
}

/** Draws the column and the disc; nothing here tells what they show. */
export function discView(view: DiscView): Svg {
  return together(column(view), disc(view), divisions(view));
}

function column(view: DiscView): Svg {
  const { scale, marking, x, from, to } = view;
  const top = columnPlace(view, to);
  const bottom = columnPlace(view, from);
  const wide = columnWidth(view);
  const first = R.toInteger(R.ceil(R.divide(from, scale.division) ?? R.ZERO)) ?? 0;
  const last = R.toInteger(R.floor(R.divide(to, scale.division) ?? R.ZERO)) ?? -1;
  const marks = Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => {
    const number = first + index;
    return { number, y: columnPlace(view, R.multiply(scale.division, R.rational(number))) };
  });
  return together(
    strokes([
      [x, top, x, bottom],
      [x - wide, top, x - wide, bottom],
    ]),
    tornAcross(x - wide, x, top),
    tornAcross(x - wide, x, bottom),
    strokes(
      marks.map(({ number, y }) => {
        const length = view.isBare ? MARKS.tenth : MARKS[markRank(marking, number)];
        return [x, y, x - length, y] as const;
      }),
      { class: 'scale' },
    ),
    element(
      'g',
      { class: 'scale-numbers', 'font-size': 12 },
      ...marks
        .filter(({ number, y }) => number % marking.number === 0 && top + 8 < y && y < bottom - 8)
        .filter(() => !view.isBare)
        .map(({ number, y }) =>
          label(x - NUMBER_AT, y + 4, markNumber(scale, number), { 'text-anchor': 'end' }),
        ),
    ),
  );
}

/** The disc's outline, left out where the column stands before it, torn where it is too wide to be drawn. */
function disc(view: DiscView): Svg {
  const { x, reach } = view;
  const y = columnPlace(view, view.position);
  const radius = halfWidth(view);
  const hidden = Math.asin(columnWidth(view) / radius);
  const side = Math.asin(Math.min(1, reach / radius));
  const front = (down: number): string =>
    edge(view, -side, -hidden, y + down, 1) + edge(view, 0, side, y + down, 1);
  const back = edge(view, -side, -hidden, y, -1) + edge(view, 0, side, y, -1);
  const depth = TILT * Math.cos(side);
  const [top, bottom] = [y - TILT - depth, y - TILT + depth + DEPTH];
  return together(
    element('path', { d: front(0) + front(DEPTH) + back }),
    radius > reach
      ? together(tornDown(x - reach, top, bottom), tornDown(x + reach, top, bottom))
      : strokes([
          [x - reach, y - TILT, x - reach, y - TILT + DEPTH],
          [x + reach, y - TILT, x + reach, y - TILT + DEPTH],
        ]),
  );
}

/** Part of the disc's edge, near side (1) or far side (-1); `y` is the height of its nearest point. */
function edge(view: DiscView, from: number, to: number, y: number, side: 1 | -1): string {
  const radius = halfWidth(view);
  const place = (turn: number): string =>
    `${coordinate(view.x + radius * Math.sin(turn))} ${coordinate(y - TILT + side * TILT * Math.cos(turn))}`;
  return `M${place(from)}A${coordinate(radius)} ${TILT} 0 0 ${side === 1 ? 0 : 1} ${place(to)}`;
}

/**
 * The disc's divisions, foreshortened towards its sides. Looking at a screw with a right-hand thread that rises, the
 * near side moves to the right, so the numbers rise to the left.
 */
function divisions(view: DiscView): Svg {
  const { drum, x, reach } = view;
  const y = columnPlace(view, view.position);
  const every = discNumbers(view);
  const radius = halfWidth(view);
  const wide = columnWidth(view);
  const half = every % 2 === 0 ? every / 2 : every;
  // A number near the disc's side is moved in a little, so that the outline does not cut it.
  const inside = (at: number, number: string): number => {
    const most = reach - 3 - textWidth(number, 12) / 2;
    return x + Math.max(-most, Math.min(at - x, most));
  };
  // Towards the sides only the longer marks are told apart.
  const isSeen = (index: number, turn: number): boolean => {
    const apart = ((radius * 2 * Math.PI) / drum.divisions) * Math.cos(turn);
    const needed = index % half === 0 ? 1 / half : LEAST_APART;
    return Math.abs(turn) < 1.5 && Math.abs(radius * Math.sin(turn)) < reach - 2 && apart > needed;
  };
  const seen = Array.from({ length: drum.divisions }, (_, index) => {
    const ahead = R.modulo(R.subtract(view.division, R.rational(index)), R.rational(drum.divisions));
    const part = R.toNumber(R.divide(ahead, R.rational(drum.divisions)) ?? R.ZERO);
    const turn = 2 * Math.PI * (part > 0.5 ? part - 1 : part);
    return { index, turn, at: x + radius * Math.sin(turn), edge: y - TILT + TILT * Math.cos(turn) };
  }).filter(({ index, turn, at }) => isSeen(index, turn) && !(x - wide < at && at < x));
  return together(
    strokes(
      seen.map(({ index, at, edge }) => {
        const length = index % every === 0 ? 16 : index % half === 0 ? 12 : 8;
        return [at, edge, at, edge + length] as const;
      }),
      { class: 'drum' },
    ),
    element(
      'g',
      { class: 'drum-numbers', 'font-size': 12 },
      ...seen
        .filter(({ index, turn, at }) => {
          const side = textWidth(String(index), 12) / 2;
          const isClear = x + 1 < at - side || at + side < x - wide || Math.abs(turn) < 1e-9;
          const apart = ((radius * 2 * Math.PI * every) / drum.divisions) * Math.cos(turn);
          const isInside = radius <= reach || Math.abs(at - x) + side < reach - 5;
          return index % every === 0 && apart > 2 * side + 6 && isInside && isClear;
        })
        .map(({ index, at, edge, turn }) =>
          Math.abs(turn) < 1e-9
            ? label(at + 3, edge + 30, String(index), { 'text-anchor': 'start' })
            : label(inside(at, String(index)), edge + 30, String(index)),
        ),
    ),
  );
}

/** What the column and the disc show: the mark passed, and the division at the column's edge. */
export function discWorked(view: DiscView, coarse: R.Rational, words: string): Svg {
  const { x, reach } = view;
  const y = columnPlace(view, view.position);
  const mark = columnPlace(view, coarse);
  const below = y + DEPTH + 4;
  const left = x - reach - 10;
  return element(
    'g',
    { class: 'coincidence' },
    strokes([[x, y, x, y + 16]], { 'stroke-width': 3 }),
    filled([
      [x, below],
      [x - 5, below + 8],
      [x + 5, below + 8],
    ]),
    label(x + 10, below + 12, `division ${R.toNumber(view.division)}`, {
      'text-anchor': 'start',
      'font-weight': 'bold',
    }),
    words === ''
      ? together()
      : together(
          strokes([[x, mark, x - 20, mark]], { 'stroke-width': 3 }),
          strokes([[x - columnWidth(view), mark, left, mark]], {
            class: 'extension',
            'stroke-width': 0.6,
            'stroke-dasharray': '2 2',
          }),
          label(left - 4, mark + 4.5, words, { 'text-anchor': 'end' }),
        ),
  );
}

function tornAcross(from: number, to: number, y: number): Svg {
  return torn((part, aside) => [from + (to - from) * part, y + aside]);
}

function tornDown(x: number, from: number, to: number): Svg {
  return torn((part, aside) => [x + aside, from + (to - from) * part]);
}

/** A zigzag along which what is drawn goes on. */
function torn(place: (part: number, aside: number) => readonly [number, number]): Svg {
  const teeth = 6;
  const d = Array.from({ length: teeth + 1 }, (_, tooth) => {
    const aside = tooth === 0 || tooth === teeth ? 0 : tooth % 2 === 0 ? 3 : -3;
    const [x, y] = place(tooth / teeth, aside);
    return `${tooth === 0 ? 'M' : 'L'}${coordinate(x)} ${coordinate(y)}`;
  }).join('');
  return element('path', { d, class: 'torn', 'stroke-width': 0.8 });
}
