import { type Draw, pick, whole } from './draw.ts';
import { commonDivisor } from './fraction.ts';
import type { VernierShape } from './physical-vernier.ts';

/** The kinds of vernier that the trade knows, and the odd ones. */
export type VernierFamily =
  | 'direct'
  | 'retrograde-forward'
  | 'retrograde-backward'
  | 'direct-backward'
  | 'extended'
  | 'odd'
  | 'common-divisor';

const USUAL_LINES = [10, 20, 25, 30, 50, 8, 12, 40, 60];

/** A ratio of the family: how many vernier divisions span how many main ones, and which way the numbers run. */
export function drawShape(draw: Draw, family: VernierFamily): VernierShape {
  const lines = whole(draw, 0, 3) < 3 ? pick(draw, USUAL_LINES) : whole(draw, 3, 60);
  switch (family) {
    case 'direct':
      return { lines, spans: lines - 1, backward: false };
    case 'direct-backward':
      return { lines, spans: lines - 1, backward: true };
    case 'retrograde-forward':
      return { lines, spans: lines + 1, backward: false };
    case 'retrograde-backward':
      return { lines, spans: lines + 1, backward: true };
    case 'extended':
      return { lines, spans: whole(draw, 2, 3) * lines + pick(draw, [-1, 1]), backward: false };
    case 'odd':
      return { lines, spans: coprimeTo(lines, whole(draw, 1, 2 * lines)), backward: whole(draw, 0, 3) === 3 };
    case 'common-divisor':
      return drawCommon(draw);
  }
}

function coprimeTo(lines: number, from: number): number {
  let spans = from;
  while (commonDivisor(BigInt(spans), BigInt(lines)) !== 1n) spans += 1;
  return spans;
}

function drawCommon(draw: Draw): VernierShape {
  const common = whole(draw, 2, 4);
  const lines = whole(draw, 2, 12);
  return {
    lines: common * lines,
    spans: common * coprimeTo(lines, whole(draw, 1, 2 * lines)),
    backward: false,
  };
}
