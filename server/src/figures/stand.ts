import * as R from '../engine/rational.ts';
import type { Drum, LinePair, Stand, VernierScale } from '../render/figures/setting.ts';

interface Parts {
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
export function standAt(position: R.Rational, { division, vernier, drum }: Parts): Stand | null {
  const passed = R.floor(R.divide(position, division) ?? R.ZERO);
  if (R.toInteger(passed) === null) return null;
  const turned = drum === null ? null : R.divide(R.modulo(position, drum.pitch), drum.division);
  const onBase = drum === null || turned === null ? position : R.multiply(turned, drum.division);
  const lines = vernier === null ? [] : offsetsOf(vernier, onBase);
  return {
    position,
    coarse: R.multiply(passed, division),
    inLine: lines
      .filter(({ off }) => R.isZero(off))
      .map(({ line, mark }) => ({ line, mark: drum === null ? mark : numberOnDrum(mark, drum) })),
    between: betweenLines(lines),
    drum: turned,
  };
}

interface Line extends LinePair {
  /** How far it stands past the nearest mark, in the shown unit. */
  readonly off: R.Rational;
}

function offsetsOf(vernier: VernierScale, zero: R.Rational): readonly Line[] {
  return Array.from({ length: vernier.lines + 1 }, (_, line) => {
    const way = R.multiply(vernier.division, R.rational(vernier.backward ? -line : line));
    const place = R.add(zero, way);
    const count = R.divide(place, vernier.along) ?? R.ZERO;
    const mark = R.multiply(R.floor(R.add(count, R.HALF)), vernier.along);
    return { line, mark, off: R.subtract(place, mark) };
  });
}

/** Two neighbours, one as far short of its mark as the other is past it, and none nearer; null where a line is in line. */
function betweenLines(lines: readonly Line[]): number | null {
  if (lines.some(({ off }) => R.isZero(off))) return null;
  const nearest = lines.reduce<R.Rational | null>(
    (least, { off }) => (least === null ? R.abs(off) : R.min(least, R.abs(off))),
    null,
  );
  const found = lines.findIndex(({ off }, index) => {
    const next = lines[index + 1];
    return (
      next !== undefined &&
      nearest !== null &&
      R.equals(R.abs(off), nearest) &&
      R.isZero(R.add(off, next.off))
    );
  });
  return found < 0 ? null : found;
}

function numberOnDrum(place: R.Rational, drum: Drum): R.Rational {
  return R.modulo(R.divide(place, drum.division) ?? R.ZERO, R.rational(drum.divisions));
}
