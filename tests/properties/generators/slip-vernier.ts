import { chance, type Draw, pick, whole } from './draw.ts';
import {
  commonDivisor,
  type Fraction,
  fraction,
  isSame,
  minus,
  negative,
  over,
  plus,
  readFraction,
  size,
  times,
} from './fraction.ts';
import { inBase } from './measure.ts';
import type { VernierShape } from './physical-vernier.ts';
import { type SlipCase, swapDigits } from './slip-case.ts';
import { type Claimed, drawVernierScene, rightOn, slipsOn, type VernierScene } from './vernier-scene.ts';
import { briefly, exactly, RATIOS, shapeOf } from './worked-setting.ts';

export type VernierSlip =
  | 'zero-correction-left-out'
  | 'zero-correction-sign'
  | 'zero-correction-twice'
  | 'closed-division-as-read'
  | 'division-miscounted'
  | 'forward-rule'
  | 'division-over-n'
  | 'difference-not-least-count'
  | 'vernier-division-for-least-count'
  | 'mark-at-coincidence'
  | 'next-mark'
  | 'unit-slip'
  | 'power-of-ten'
  | 'digits-swapped'
  | 'sign-slip';

const direct = (lines: number): VernierShape => ({ lines, spans: lines - 1, backward: false });

/** A random vernier on which the slip was made once; null where it comes to the right value after all. */
export function drawVernierSlip(draw: Draw, slip: VernierSlip): SlipCase | null {
  const scene = drawVernierScene(draw, drawShapeFor(draw, slip));
  const { setting, position, zero, line, mark } = scene;
  const { leastCount, unit, shape, division, vernierDivision } = setting;
  const put = (value: Fraction) => exactly(value, unit, leastCount);
  const brief = (value: Fraction) => briefly(value, unit);
  const counted = (count: number, step: Fraction) => `${brief(mark)} + ${count} × ${brief(step)}`;
  switch (slip) {
    case 'zero-correction-left-out':
      return claimOf(scene, slip, 'corrected reading', [put(position)], position);
    case 'zero-correction-sign': {
      const stated = plus(position, zero);
      const sum =
        zero.top > 0n ? `${put(position)} + ${brief(zero)}` : `${put(position)} - ${brief(size(zero))}`;
      return claimOf(scene, slip, 'corrected reading', [...(chance(draw) ? [sum] : []), put(stated)], stated);
    }
    case 'zero-correction-twice': {
      const stated = minus(position, zero, zero);
      return claimOf(scene, slip, 'corrected reading', [put(stated)], stated);
    }
    case 'closed-division-as-read': {
      if (zero.top > 0n) return null;
      const stated = times(fraction(scene.zeroLine * pick(draw, [-1, 1])), leastCount);
      return claimOf(scene, slip, 'zero error', [put(stated)], stated);
    }
    case 'division-miscounted': {
      const count = line + pick(draw, [1, -1]);
      if (count < 0) return null;
      const stated = plus(mark, times(fraction(count), leastCount));
      return claimOf(
        scene,
        slip,
        'observed reading',
        [...(chance(draw) ? [counted(count, leastCount)] : []), put(stated)],
        stated,
      );
    }
    case 'forward-rule': {
      const stated = plus(mark, times(fraction(line), leastCount));
      const formula = pick(draw, [[], ['MSR + n × LC'], [counted(line, leastCount)]]);
      return claimOf(scene, slip, 'observed reading', [...formula, put(stated)], stated);
    }
    case 'division-over-n': {
      const stated = over(division, fraction(shape.lines));
      return claimOf(scene, slip, 'least count', [...pick(draw, [[], ['S/N']]), brief(stated)], stated);
    }
    case 'difference-not-least-count': {
      const stated = size(minus(division, vernierDivision));
      const formula = shape.spans < shape.lines ? 'S - V' : 'V - S';
      return claimOf(scene, slip, 'least count', [...pick(draw, [[], [formula]]), brief(stated)], stated);
    }
    case 'vernier-division-for-least-count': {
      if (chance(draw)) return claimOf(scene, slip, 'least count', [brief(vernierDivision)], vernierDivision);
      const stated = plus(mark, times(fraction(line), vernierDivision));
      return claimOf(
        scene,
        slip,
        'observed reading',
        [...(chance(draw) ? [counted(line, vernierDivision)] : []), put(stated)],
        stated,
      );
    }
    case 'mark-at-coincidence': {
      const stated = plus(scene.markAtCoincidence, times(fraction(line), leastCount));
      return claimOf(scene, slip, 'observed reading', [put(stated)], stated);
    }
    case 'next-mark': {
      const stated = plus(position, division);
      return claimOf(scene, slip, 'observed reading', [put(stated)], stated);
    }
    case 'unit-slip': {
      if (setting.measure !== 'metric' || unit !== 'cm') return null;
      const stated = plus(mark, times(fraction(line), leastCount, fraction(10)));
      return claimOf(scene, slip, 'observed reading', [put(stated)], stated);
    }
    case 'power-of-ten': {
      const stated = times(leastCount, pick(draw, [fraction(10), fraction(1, 10), fraction(100)]));
      return claimOf(scene, slip, 'least count', [brief(stated)], stated);
    }
    case 'digits-swapped': {
      const link = swapDigits(draw, put(position));
      const number = link === null ? null : readFraction(link.split(' ')[0]!);
      return link === null || number === null
        ? null
        : claimOf(scene, slip, 'observed reading', [link], inBase(number, unit));
    }
    case 'sign-slip':
      return claimOf(scene, slip, 'zero error', [put(negative(zero))], negative(zero));
  }
}

function drawShapeFor(draw: Draw, slip: VernierSlip): (lines: number) => VernierShape {
  switch (slip) {
    case 'forward-rule':
      return pick(draw, [
        (lines: number) => ({ lines, spans: lines + 1, backward: false }),
        (lines: number) => ({ lines, spans: lines - 1, backward: true }),
        (lines: number) => ({ lines, spans: oddSpans(lines, 3), backward: false }),
      ]);
    case 'division-over-n':
      return lines =>
        lines % 2 === 0
          ? { lines, spans: lines - 2, backward: false }
          : { lines, spans: lines - 5, backward: false };
    case 'difference-not-least-count':
      return pick(draw, [
        (lines: number) => ({ lines, spans: oddSpans(lines, 3), backward: false }),
        (lines: number) => ({ lines, spans: 2 * lines - 1, backward: false }),
        (lines: number) => ({ lines, spans: 2 * lines + 1, backward: false }),
      ]);
    default:
      return direct;
  }
}

/** A span a few divisions short of the vernier's number, with nothing in common with it. */
function oddSpans(lines: number, short: number): number {
  let spans = lines - short;
  while (commonDivisor(BigInt(spans), BigInt(lines)) !== 1n) spans -= 1;
  return spans;
}

function claimOf(
  scene: VernierScene,
  slip: VernierSlip | null,
  term: Claimed,
  links: readonly string[],
  stated: Fraction,
): SlipCase | null {
  const right = rightOn(scene, term);
  if (isSame(right, stated)) return null;
  // What comes to the corrected reading may be just that, put down under the wrong name.
  if (term === 'observed reading' && isSame(stated, minus(scene.position, scene.zero))) return null;
  const lines = [...scene.records, `${term} = ${links.join(' = ')}`];
  return {
    lines,
    link: links[0]!,
    slip,
    stated,
    right,
    unit: scene.setting.unit,
    others: slipsOn(scene, term),
  };
}

/** A claim that is wrong by some steps of the scale for no reason at all, on a vernier of any ratio. */
export function drawUnexplained(draw: Draw): SlipCase | null {
  const ratio = pick(draw, RATIOS);
  const scene = drawVernierScene(draw, lines => shapeOf(ratio, lines));
  const { unit, leastCount } = scene.setting;
  const term = pick(draw, ['observed reading', 'corrected reading', 'zero error'] as const);
  const right = rightOn(scene, term);
  const stated = plus(right, times(fraction(whole(draw, -80, 80)), leastCount));
  return claimOf(scene, null, term, [exactly(stated, unit, leastCount)], stated);
}
