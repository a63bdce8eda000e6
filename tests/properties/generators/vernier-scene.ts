import { type Draw, pick, whole } from './draw.ts';
import {
  commonDivisor,
  type Fraction,
  fraction,
  minus,
  negative,
  over,
  plus,
  size,
  times,
} from './fraction.ts';
import { seeVernier, type VernierShape } from './physical-vernier.ts';
import { briefly, drawVernierSetting, scaleLines, type VernierSetting } from './worked-setting.ts';

/** A vernier read and closed, with all that a slip needs to go wrong. */
export interface VernierScene {
  readonly setting: VernierSetting;
  readonly position: Fraction;
  readonly mark: Fraction;
  readonly markAtCoincidence: Fraction;
  readonly line: number;
  readonly zero: Fraction;
  readonly zeroLine: number;
  readonly records: readonly string[];
}

/** Lays a vernier out, open and closed, at random. */
export function drawVernierScene(draw: Draw, shapeFor: (lines: number) => VernierShape): VernierScene {
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

export type Claimed = 'least count' | 'zero error' | 'observed reading' | 'corrected reading';

export function rightOn(scene: VernierScene, term: Claimed): Fraction {
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
export function slipsOn(scene: VernierScene, term: Claimed): (readonly [string, Fraction])[] {
  const { setting, position, zero } = scene;
  const { division, vernierDivision, shape } = setting;
  switch (term) {
    case 'least count':
      return [
        ['division-over-n', over(division, fraction(shape.lines))],
        ['difference-not-least-count', size(minus(division, vernierDivision))],
        ['difference-not-least-count', minus(division, vernierDivision)],
        ['vernier-division-for-least-count', vernierDivision],
      ];
    case 'zero error':
      return zeroSlips(scene);
    case 'observed reading':
      return readingSlips(scene);
    case 'corrected reading':
      return [
        ...readingSlips(scene).map(([slip, value]) => [slip, minus(value, zero)] as const),
        ...zeroSlips(scene).map(([slip, value]) => [slip, minus(position, value)] as const),
        ['zero-correction-left-out', position],
        ['zero-correction-sign', plus(position, zero)],
        ['zero-correction-twice', minus(position, zero, zero)],
      ];
  }
}

function zeroSlips(scene: VernierScene): (readonly [string, Fraction])[] {
  const { setting, zero, zeroLine } = scene;
  const { leastCount, shape } = setting;
  const read = times(fraction(zeroLine), leastCount);
  const left = times(fraction(shape.lines - zeroLine), leastCount);
  return [
    ...[read, negative(read), left, negative(left)].map(value => ['closed-division-as-read', value] as const),
    ['division-miscounted', plus(zero, leastCount)],
    ['division-miscounted', minus(zero, leastCount)],
    ['sign-slip', negative(zero)],
    ...unitFactors(setting).map(factor => ['unit-slip', times(zero, factor)] as const),
  ];
}

function readingSlips(scene: VernierScene): (readonly [string, Fraction])[] {
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
    ...unitFactors(setting).flatMap(
      factor =>
        [
          ['unit-slip', plus(mark, times(part, factor))],
          ['unit-slip', plus(times(mark, factor), part)],
          ['unit-slip', times(position, factor)],
        ] as const,
    ),
  ];
}

/** Centimetres taken for millimetres, degrees for minutes, minutes for hundredths of a degree, and the other way round. */
function unitFactors(setting: VernierSetting): Fraction[] {
  switch (setting.measure) {
    case 'metric':
      return [fraction(10), fraction(1, 10)];
    case 'inch':
      return [];
    case 'angle':
      return [fraction(60), fraction(1, 60), fraction(3, 5), fraction(5, 3)];
  }
}
