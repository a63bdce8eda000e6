/**
 * A main scale and its vernier as they lie on the bench: whole numbers of grains, two grains to a step.
 *
 * `lines` vernier divisions span `spans` main ones; numbered backward, line k stands k divisions behind
 * the vernier's zero. A main division is 2 × lines grains and a vernier division 2 × spans, so
 * that halves of a step are whole too.
 */
export interface VernierShape {
  readonly lines: number;
  readonly spans: number;
  readonly backward: boolean;
}

/** What an eye finds on it: the last main mark not past the vernier's zero, and every line that meets a mark. */
export interface SeenVernier {
  readonly mark: number;
  readonly inLine: readonly { readonly line: number; readonly mark: number }[];
  /** The two neighbouring lines that share the coincidence, one just short of its mark and one just past it. */
  readonly between: number | null;
}

export function grainsOfMain(shape: VernierShape): number {
  return 2 * shape.lines;
}

/** Lays the marks and the lines one by one at a position of the vernier's zero, and looks. */
export function seeVernier(shape: VernierShape, position: number): SeenVernier {
  const marks = layMarks(shape, position);
  let mark = Number.NEGATIVE_INFINITY;
  for (const [place, number] of marks) if (place <= position) mark = Math.max(mark, number);
  const places = layLines(shape, position);
  const inLine = places.flatMap((place, line) => {
    const met = marks.get(place);
    return met === undefined ? [] : [{ line, mark: met }];
  });
  const short = (place: number) => marks.has(place + 1);
  const past = (place: number) => marks.has(place - 1);
  const between = places.findIndex((place, line) => {
    const next = places[line + 1];
    return next !== undefined && ((short(place) && past(next)) || (past(place) && short(next)));
  });
  return { mark, inLine, between: between < 0 ? null : between };
}

function layMarks(shape: VernierShape, position: number): Map<number, number> {
  const division = grainsOfMain(shape);
  const reach = 2 * shape.spans * shape.lines + division;
  const marks = new Map<number, number>();
  let place = 0;
  for (let number = 0; place <= position + reach; number += 1, place += division) marks.set(place, number);
  place = -division;
  for (let number = -1; place >= position - reach; number -= 1, place -= division) marks.set(place, number);
  return marks;
}

function layLines(shape: VernierShape, position: number): number[] {
  const places: number[] = [];
  let place = position;
  for (let line = 0; line <= shape.lines; line += 1) {
    places.push(place);
    place += shape.backward ? -2 * shape.spans : 2 * shape.spans;
  }
  return places;
}

/** The smallest step that these scales can tell apart, in grains: every line's offset from a mark, sorted. */
export function smallestStep(shape: VernierShape): number {
  const division = grainsOfMain(shape);
  const offsets = new Set<number>([0, division]);
  let offset = 0;
  for (let line = 1; line <= shape.lines; line += 1) {
    offset += 2 * shape.spans;
    while (offset >= division) offset -= division;
    offsets.add(offset);
  }
  const sorted = [...offsets].sort((a, b) => a - b);
  return Math.min(...sorted.slice(1).map((place, index) => place - sorted[index]!));
}
