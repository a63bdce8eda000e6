import * as R from '../engine/rational.ts';
import type { Drum, Stand, VernierScale } from '../render/figures/setting.ts';

export interface StandParts {
  /** A division of the coarse scale. */
  readonly division: R.Rational;
  readonly vernier: VernierScale | null;
  readonly drum: Drum | null;
}

/**
 * What an eye finds on the scales when the instrument stands at a place: the mark passed, the drum's division, and
 * which lines meet a mark.
 *
 * Line k of a vernier stands k·V past its zero (numbered backward: before it) and meets a mark where that is a whole
 * number of divisions. All in the shown unit. Null where the place is too far off to be drawn.
 */
export function standAt(position: R.Rational, { division, vernier, drum }: StandParts): Stand | null {
  const passed = R.floor(R.divide(position, division) ?? R.ZERO);
  if (R.toInteger(passed) === null) return null;
  const turned = drum === null ? null : R.divide(R.modulo(position, drum.pitch), drum.division);
  const onBase = drum === null || turned === null ? position : R.multiply(turned, drum.division);
  const lines = vernier === null ? [] : offsetsOf(vernier, onBase);
  return {
    position,
    coarse: R.multiply(passed, division),
    inLine: lines
      .filter(({ off }) => off === 0n)
      .map(({ line }) => {
        const mark = linePlace(vernier!, onBase, line);
        return { line, mark: drum === null ? mark : numberOnDrum(mark, drum) };
      }),
    between: betweenLines(lines),
    drum: turned,
  };
}

interface Line {
  readonly line: number;
  /** How far it stands past the nearest mark, counted in a measure that all lines have in common. */
  readonly off: bigint;
}

/** All in whole numbers, from line to line: places go up by one division of the vernier, and round with the marks. */
function offsetsOf({ lines, division, along, backward }: VernierScale, zero: R.Rational): readonly Line[] {
  const [placeParts, ownParts, alongParts] = [zero, division, along].map(R.denominator) as [
    bigint,
    bigint,
    bigint,
  ];
  const room = R.numerator(along) * placeParts * ownParts;
  const own = (R.numerator(division) * placeParts * alongParts) % room;
  const step = backward ? room - own : own;
  const first = (R.numerator(zero) * ownParts * alongParts) % room;
  let past = first < 0n ? first + room : first;
  return Array.from({ length: lines + 1 }, (_, line) => {
    const off = 2n * past < room ? past : past - room;
    past += step;
    if (past >= room) past -= room;
    return { line, off };
  });
}

/** Two neighbours, one as far short of its mark as the other is past it, and none nearer; null where a line is in line. */
function betweenLines(lines: readonly Line[]): number | null {
  let nearest: bigint | null = null;
  for (const { off } of lines) {
    if (off === 0n) return null;
    const size = sizeOf(off);
    if (nearest === null || size < nearest) nearest = size;
  }
  const found = lines.findIndex(({ off }, index) => {
    const next = lines[index + 1];
    return next !== undefined && sizeOf(off) === nearest && off + next.off === 0n;
  });
  return found < 0 ? null : found;
}

function sizeOf(off: bigint): bigint {
  return off < 0n ? -off : off;
}

function linePlace({ division, backward }: VernierScale, zero: R.Rational, line: number): R.Rational {
  return R.add(zero, R.multiply(division, R.rational(backward ? -line : line)));
}

function numberOnDrum(place: R.Rational, drum: Drum): R.Rational {
  return R.modulo(R.divide(place, drum.division) ?? R.ZERO, R.rational(drum.divisions));
}
