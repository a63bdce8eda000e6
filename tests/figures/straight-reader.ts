import { ofClass, type Piece, strokesOf, textsOf, theOnly } from './read-figure.ts';

/** What a student sees on a straight scale with its vernier; all from the places of marks and numbers. */
export interface SeenStraight {
  /** The number at the last mark that is not past the vernier's zero, and where the zero stands between the numbers. */
  readonly coarse: number;
  readonly zero: number;
  /** Lines of the vernier in the finest drawing, each with how far it is off the nearest mark, in main divisions. */
  readonly lines: readonly SeenLine[];
  /** The same on the whole vernier, where it is not magnified. */
  readonly all: readonly SeenLine[];
}

export interface SeenLine {
  readonly line: number;
  /** Positive past the mark. */
  readonly off: number;
  readonly room: number;
}

/**
 * `division` is what a student knows from the question, and which way the vernier is numbered is seen from its numbers;
 * an upright scale is looked at with the head on the left shoulder.
 */
export function seeStraight(
  panel: Piece,
  division: number,
  backward: boolean,
  isUpright = false,
): SeenStraight {
  const look = isUpright ? upright : lying;
  const whole = look(theOnly(ofClass(panel, 'whole'), 'whole'));
  const finest = look(theOnly(ofClass(panel, 'finest'), 'finest'));
  const { valueAt, marks } = rulerOf(whole, division);
  const zeroAt = whole.texts('vernier-numbers').find(({ text }) => text === '0')?.x;
  if (zeroAt === undefined) throw new Error('the zero of the vernier bears no number');
  const last = marks.filter(x => x <= zeroAt + NEAR).at(-1);
  return {
    coarse: last === undefined ? Number.NaN : valueAt(last),
    zero: valueAt(zeroAt),
    lines: linesOf(finest, backward),
    all: linesOf(whole, backward),
  };
}

const NEAR = 0.0002;

/** The marks and numbers of a drawing, by how far along the scale they stand. */
interface Looked {
  places(name: string): readonly number[];
  texts(name: string): readonly { readonly x: number; readonly text: string }[];
}

function lying(piece: Piece): Looked {
  return {
    places: name => strokesOf(piece, name).map(stroke => across(stroke.x1, stroke.x2)),
    texts: name => textsOf(piece, name),
  };
}

/** Numbers stand beside their marks, their baseline a little below. */
function upright(piece: Piece): Looked {
  return {
    places: name => strokesOf(piece, name).map(stroke => -across(stroke.y1, stroke.y2)),
    texts: name => textsOf(piece, name).map(({ y, text }) => ({ x: 4 - y, text })),
  };
}

/** A mark stands straight across its scale. */
function across(one: number, other: number): number {
  if (one !== other) throw new Error('a slanting mark');
  return one;
}

/** The values of the marks, counted from a number. */
function rulerOf(whole: Looked, division: number) {
  const marks = [...whole.places('scale')].sort((a, b) => a - b);
  const numbers = whole.texts('scale-numbers').map(({ x, text }) => ({ x, value: numberOf(text) }));
  if (numbers.length < 2) throw new Error('fewer than two numbers on the scale');
  const [first, second] = numbers as [{ x: number; value: number }, { x: number; value: number }];
  const between = marks.filter(x => first.x + NEAR < x && x <= second.x + NEAR).length;
  // As many marks as the numbers say.
  if (Math.abs(between * division - (second.value - first.value)) > 1e-9)
    throw new Error(`${between} divisions from ${first.value} to ${second.value}`);
  const perUnit = (numbers.at(-1)!.x - first.x) / (numbers.at(-1)!.value - first.value);
  return { marks, valueAt: (x: number) => first.value + (x - first.x) / perUnit };
}

export function numberOf(text: string): number {
  const [top, bottom = '1'] = text.replace('−', '-').split('/');
  return Number(top) / Number(bottom);
}

function linesOf(drawn: Looked, backward: boolean): readonly SeenLine[] {
  const marks = drawn.places('scale');
  const room = (Math.max(...marks) - Math.min(...marks)) / (marks.length - 1);
  const lines = [...drawn.places('vernier')].sort((a, b) => (backward ? b - a : a - b));
  const named = drawn.texts('vernier-numbers')[0];
  const at = lines.findIndex(x => Math.abs(x - (named?.x ?? Number.NaN)) < NEAR);
  if (named === undefined || at < 0) throw new Error('no line of the vernier bears a number');
  return lines.map((x, index) => {
    const mark = marks.reduce((near, place) => (Math.abs(place - x) < Math.abs(near - x) ? place : near));
    return { line: Number(named.text) + index - at, off: (x - mark) / room, room };
  });
}
