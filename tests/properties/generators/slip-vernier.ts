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
import { seeVernier, type VernierShape } from './physical-vernier.ts';
import { type SlipCase, swapDigits } from './slip-case.ts';
import { briefly, drawVernierSetting, exactly, scaleLines, type VernierSetting } from './worked-setting.ts';

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

/** A vernier read and closed, with all that a slip needs to go wrong. */
interface Scene {
  readonly setting: VernierSetting;
  readonly position: Fraction;
  readonly mark: Fraction;
  readonly markAtCoincidence: Fraction;
  readonly line: number;
  readonly zero: Fraction;
  readonly zeroLine: number;
  readonly records: readonly string[];
}

const direct = (lines: number): VernierShape => ({ lines, spans: lines - 1, backward: false });

function drawScene(draw: Draw, shapeFor: (lines: number) => VernierShape): Scene {
  const setting = drawVernierSetting(draw, shapeFor);
  const { shape, division, leastCount } = setting;
  const steps = 5 * shape.lines + whole(draw, 1, 40 * shape.lines);
  const common = Number(commonDivisor(BigInt(shape.lines), BigInt(shape.spans)));
  const seen = seeVernier(shape, 2 * steps * common);
  const met = seen.inLine[0]!;
  const zeroSteps = whole(draw, 1, shape.lines / common - 1) * pick(draw, [-1, 1]);
  const zeroLine = seeVernier(shape, 2 * zeroSteps * common).inLine[0]!.line;
  const mark = times(fraction(seen.mark), division);
  return {
    setting,
    position: times(fraction(steps), leastCount),
    mark,
    markAtCoincidence: times(fraction(met.mark), division),
    line: met.line,
    zero: times(fraction(zeroSteps), leastCount),
    zeroLine,
    records: [
      ...scaleLines(setting),
      `closed: vernier zero ${zeroSteps > 0 ? 'right' : 'left'}, division ${zeroLine}`,
      `main scale reading: ${briefly(mark, setting.unit)}`,
      `coinciding division: ${met.line}`,
    ],
  };
}

/** A random vernier on which the slip was made once; null where it comes to the right value after all. */
export function drawVernierSlip(draw: Draw, slip: VernierSlip): SlipCase | null {
  const scene = drawScene(draw, drawShapeFor(draw, slip));
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

type Claimed = 'least count' | 'zero error' | 'observed reading' | 'corrected reading';

function claimOf(
  scene: Scene,
  slip: VernierSlip,
  term: Claimed,
  links: readonly string[],
  stated: Fraction,
): SlipCase | null {
  const right = rightOf(scene, term);
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
    others: othersOf(scene, term),
  };
}

function rightOf(scene: Scene, term: Claimed): Fraction {
  switch (term) {
    case 'least count':
      return scene.setting.leastCount;
    case 'zero error':
      return scene.zero;
    case 'observed reading':
      return scene.position;
    case 'corrected reading':
      return minus(scene.position, scene.zero);
  }
}

/** What every slip that touches the term gives on this scene. */
function othersOf(scene: Scene, term: Claimed): (readonly [string, Fraction])[] {
  const { setting, position, zero, zeroLine } = scene;
  const { leastCount, division, vernierDivision, shape } = setting;
  switch (term) {
    case 'least count':
      return [
        ['division-over-n', over(division, fraction(shape.lines))],
        ['difference-not-least-count', size(minus(division, vernierDivision))],
        ['difference-not-least-count', minus(division, vernierDivision)],
        ['vernier-division-for-least-count', vernierDivision],
      ];
    case 'zero error':
      return zeroSlips(zero, zeroLine, leastCount);
    case 'observed reading':
      return readingSlips(scene);
    case 'corrected reading':
      return [
        ...readingSlips(scene).map(([slip, value]) => [slip, minus(value, zero)] as const),
        ...zeroSlips(zero, zeroLine, leastCount).map(
          ([slip, value]) => [slip, minus(position, value)] as const,
        ),
        ['zero-correction-left-out', position],
        ['zero-correction-sign', plus(position, zero)],
        ['zero-correction-twice', minus(position, zero, zero)],
      ];
  }
}

function zeroSlips(zero: Fraction, line: number, leastCount: Fraction): (readonly [string, Fraction])[] {
  const read = times(fraction(line), leastCount);
  return [
    ['closed-division-as-read', read],
    ['closed-division-as-read', negative(read)],
    ['division-miscounted', plus(zero, leastCount)],
    ['division-miscounted', minus(zero, leastCount)],
    ['sign-slip', negative(zero)],
  ];
}

function readingSlips(scene: Scene): (readonly [string, Fraction])[] {
  const { setting, position, mark, markAtCoincidence, line } = scene;
  const { leastCount, division, vernierDivision } = setting;
  const part = minus(position, mark);
  const steps = times(fraction(line), leastCount);
  return [
    ['division-miscounted', plus(position, leastCount)],
    ['division-miscounted', minus(position, leastCount)],
    ['forward-rule', plus(mark, steps)],
    ['vernier-division-for-least-count', plus(mark, times(fraction(line), vernierDivision))],
    ['mark-at-coincidence', plus(markAtCoincidence, steps)],
    ['mark-at-coincidence', plus(markAtCoincidence, part)],
    ['next-mark', plus(position, division)],
    ['unit-slip', plus(mark, times(part, fraction(10)))],
    ['unit-slip', plus(mark, times(part, fraction(1, 10)))],
    ['unit-slip', plus(times(mark, fraction(10)), part)],
    ['unit-slip', plus(times(mark, fraction(1, 10)), part)],
  ];
}
