import { type Stroke, strokesOf, textsOf } from './arc-drawing.ts';

/** What a student sees on an arc; values in seconds of arc. */
export interface SeenArc {
  /** Lines that meet a mark within a thousandth of a step, and the mark's value. */
  readonly inLine: readonly { readonly line: number; readonly mark: number }[];
  /** How far every other line is from its nearest mark, in steps: forward of it positive. */
  readonly off: ReadonlyMap<number, number>;
  /** The last mark that is not past the vernier's nought. */
  readonly before: number;
  readonly lines: readonly number[];
  /** How large a step comes out, in units of the drawing. */
  readonly step: number;
}

interface Placed {
  readonly at: number;
  readonly value: number;
}

/**
 * Reads an arc from its strokes and numbers alone: marks point outward from the dividing arc, the vernier's lines
 * inward; `division` (in seconds) and `steps` to a division are what its maker engraved.
 */
export function readArc(svg: string, division: number, steps: number): SeenArc {
  const scale = strokesOf(svg, 'scale');
  const vernier = strokesOf(svg, 'vernier');
  const { centre, radius } = commonCentre(svg, scale[0]!);
  const along = (x: number, y: number): number => radius * Math.atan2(x - centre[0], centre[1] - y);
  for (const stroke of [...scale, ...vernier]) requireRadial(stroke, along);
  const numbers = textsOf(svg, 'scale-numbers').map(({ x, y, text }) => ({
    at: along(x, y),
    value: secondsOf(text),
  }));
  const lineNumbers = textsOf(svg, 'vernier-numbers').map(({ x, y, text }) => ({
    at: along(x, y),
    value: Number(text),
  }));
  const torn = strokesOf(svg, 'torn')
    .map(([x, y]) => along(x, y))
    .sort((a, b) => a - b);
  const places = scale.map(([x, y]) => along(x, y)).sort((a, b) => a - b);
  const width = Math.min(
    ...places
      .slice(1)
      .flatMap((place, index) =>
        torn.some(edge => places[index]! < edge && edge < place) ? [] : [place - places[index]!],
      ),
  );
  const marks = counted(places, torn, numbers, division);
  const linePlaces = vernier.map(([x, y]) => along(x, y)).sort((a, b) => a - b);
  const lines = counted(linePlaces, torn, lineNumbers, backwardStep(lineNumbers));
  const step = width / steps;
  const seen = lines.map(line => {
    const nearest = marks.reduce((best, mark) =>
      Math.abs(mark.at - line.at) < Math.abs(best.at - line.at) ? mark : best,
    );
    return { line: line.value, mark: nearest.value, off: (line.at - nearest.at) / step };
  });
  const zero = lines.find(({ value }) => value === 0)!;
  const passed = marks.filter(({ at }) => at <= zero.at + step / 1000);
  return {
    inLine: seen.filter(({ off }) => Math.abs(off) < 0.001).map(({ line, mark }) => ({ line, mark })),
    off: new Map(seen.filter(({ off }) => Math.abs(off) >= 0.001).map(({ line, off }) => [line, off])),
    before: passed.at(-1)!.value,
    lines: lines.map(({ value }) => value),
    step,
  };
}

/** Which way the vernier's numbers run, by two that stand beside each other. */
function backwardStep(numbers: readonly Placed[]): 1 | -1 {
  const sorted = [...numbers].sort((a, b) => a.at - b.at);
  return sorted.length > 1 && sorted[1]!.value < sorted[0]!.value ? -1 : 1;
}

/** Gives every mark its value, counting from the numbered marks of its stretch. */
function counted(
  places: readonly number[],
  torn: readonly number[],
  numbers: readonly Placed[],
  each: number,
): readonly Placed[] {
  // From torn edge to torn edge.
  const stretches = torn
    .flatMap((left, index) => (index % 2 === 0 ? [[left, torn[index + 1]!] as const] : []))
    .map(([left, right]) => places.filter(place => left <= place && place <= right))
    .filter(stretch => stretch.length > 0);
  return stretches.flatMap(stretch => {
    const named = numbers.flatMap(number => {
      const index = stretch.findIndex(place => Math.abs(place - number.at) < 0.01);
      return index < 0 ? [] : [{ index, value: number.value }];
    });
    const first = named[0];
    if (first === undefined) throw new Error('a stretch without a number');
    for (const other of named) {
      const round = (other.value - first.value - each * (other.index - first.index)) / 1_296_000;
      if (!Number.isInteger(round)) throw new Error('numbers that do not count');
    }
    return stretch.map((at, index) => ({ at, value: first.value + each * (index - first.index) }));
  });
}

/** The centre of the arcs that are drawn, and the radius on which the marks stand; all arcs must have one centre. */
function commonCentre(svg: string, mark: Stroke): { centre: readonly [number, number]; radius: number } {
  const arcs = [...svg.matchAll(/M(\S+?) (\S+?)A(\S+?) \S+? 0 0 1 (\S+?) ([\d.-]+)/g)].map(match =>
    match.slice(1).map(Number),
  );
  const centres = arcs
    .map(arc => centreOf(arc as [number, number, number, number, number]))
    .filter(centre => centre !== null);
  const centre = centres.reduce((best, each) => (each.chord > best.chord ? each : best));
  for (const each of centres) {
    if (each.chord > 100 && Math.hypot(each.x - centre.x, each.y - centre.y) > 0.05)
      throw new Error('two centres');
  }
  return { centre: [centre.x, centre.y], radius: Math.hypot(mark[0] - centre.x, mark[1] - centre.y) };
}

function centreOf([x1, y1, radius, x2, y2]: [number, number, number, number, number]): {
  x: number;
  y: number;
  chord: number;
} | null {
  const chord = Math.hypot(x2 - x1, y2 - y1);
  if (chord < 1) return null;
  const down = Math.sqrt(radius * radius - (chord * chord) / 4);
  // Turning with the clock from left to right, the centre lies to the right of the chord: below it.
  return {
    x: (x1 + x2) / 2 - (down * (y2 - y1)) / chord,
    y: (y1 + y2) / 2 + (down * (x2 - x1)) / chord,
    chord,
  };
}

function requireRadial([x1, y1, x2, y2]: Stroke, along: (x: number, y: number) => number): void {
  if (Math.abs(along(x1, y1) - along(x2, y2)) > 0.002)
    throw new Error('a mark that does not point to the centre');
}

function secondsOf(text: string): number {
  const match = /^(-?)(?:(\d+)°)? ?(?:(\d+)′)? ?(?:(\d+)″)?$/.exec(text);
  if (match === null) throw new Error(`no angle: ${text}`);
  const size = 3600 * Number(match[2] ?? 0) + 60 * Number(match[3] ?? 0) + Number(match[4] ?? 0);
  return match[1] === '-' ? -size : size;
}
