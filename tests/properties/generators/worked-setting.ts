import { type Draw, pick } from './draw.ts';
import { decimalText, type Fraction, fraction, over, placesOf, times } from './fraction.ts';
import { inBase, inUnit, type Measure, type Unit } from './measure.ts';
import { grainsOfMain, smallestStep, type VernierShape } from './physical-vernier.ts';

/** A vernier whose steps a tutor can write down in decimals, and the unit that its readings are written in. */
export interface VernierSetting {
  readonly measure: Measure;
  /** The unit of the main scale's line and how many divisions the units there hold. */
  readonly scaleUnit: Unit;
  readonly divisionsPerUnit: number;
  readonly unit: Unit;
  readonly shape: VernierShape;
  readonly division: Fraction;
  readonly vernierDivision: Fraction;
  readonly leastCount: Fraction;
}

const MAIN: readonly (readonly [Measure, Unit, number, readonly number[], readonly Unit[]])[] = [
  ['metric', 'mm', 1, [10, 20, 50, 25], ['mm', 'cm']],
  ['metric', 'cm', 10, [10, 20, 50], ['cm', 'mm']],
  ['metric', 'cm', 20, [25, 10, 50, 20], ['cm', 'mm']],
  ['metric', 'mm', 2, [25, 50], ['mm']],
  ['inch', 'in', 40, [25], ['in']],
  ['inch', 'in', 20, [50, 25], ['in']],
  ['angle', 'deg', 2, [30, 15], ['arcmin']],
  ['angle', 'deg', 1, [12, 60], ['arcmin']],
  ['angle', 'deg', 3, [40, 20], ['arcmin']],
];

/** Which way a line's number counts the steps: `n` steps past the mark, or as many as are left to N. */
export type Numbering = 'n' | 'N - n';

export interface Ratio {
  readonly name:
    | 'direct'
    | 'retrograde-forward'
    | 'retrograde-backward'
    | 'extended-short'
    | 'extended-long'
    | 'direct-backward';
  readonly numbering: Numbering;
  /** The least count in the divisions' letters. */
  readonly difference: string;
}

export const RATIOS: readonly Ratio[] = [
  { name: 'direct', numbering: 'n', difference: 'S - V' },
  { name: 'retrograde-forward', numbering: 'N - n', difference: 'V - S' },
  { name: 'retrograde-backward', numbering: 'n', difference: 'V - S' },
  { name: 'extended-short', numbering: 'n', difference: '2 S - V' },
  { name: 'extended-long', numbering: 'N - n', difference: 'V - 2 S' },
  { name: 'direct-backward', numbering: 'N - n', difference: 'S - V' },
];

export function shapeOf(ratio: Ratio, lines: number): VernierShape {
  switch (ratio.name) {
    case 'direct':
      return { lines, spans: lines - 1, backward: false };
    case 'direct-backward':
      return { lines, spans: lines - 1, backward: true };
    case 'retrograde-forward':
      return { lines, spans: lines + 1, backward: false };
    case 'retrograde-backward':
      return { lines, spans: lines + 1, backward: true };
    case 'extended-short':
      return { lines, spans: 2 * lines - 1, backward: false };
    case 'extended-long':
      return { lines, spans: 2 * lines + 1, backward: false };
  }
}

export function drawVernierSetting(draw: Draw, shapeFor: (lines: number) => VernierShape): VernierSetting {
  const [measure, scaleUnit, divisionsPerUnit, lineCounts, units] = pick(draw, MAIN);
  const shape = shapeFor(pick(draw, lineCounts));
  const division = over(inBase(fraction(1), scaleUnit), fraction(divisionsPerUnit));
  return {
    measure,
    scaleUnit,
    divisionsPerUnit,
    unit: pick(draw, units),
    shape,
    division,
    vernierDivision: times(division, fraction(shape.spans, shape.lines)),
    leastCount: times(division, fraction(smallestStep(shape), grainsOfMain(shape))),
  };
}

/** The records of its two scales, in plain words. */
export function scaleLines(setting: VernierSetting): string[] {
  const { shape } = setting;
  return [
    `main scale: 1 ${setting.scaleUnit} = ${setting.divisionsPerUnit} MSD`,
    `vernier scale: ${shape.lines} VSD = ${shape.spans} MSD`,
    ...(shape.backward ? ['vernier runs: backward'] : []),
  ];
}

/** A value exactly, at no fewer places than the least count has in that unit. */
export function exactly(value: Fraction, unit: Unit, leastCount: Fraction, signed = false): string {
  const number = inUnit(value, unit);
  const places = Math.max(placesOf(number) ?? 0, placesOf(inUnit(leastCount, unit)) ?? 0);
  return `${signed && number.top > 0n ? '+' : ''}${decimalText(number, places)} ${unit}`;
}

/** A value at just the places that it needs. */
export function briefly(value: Fraction, unit: Unit): string {
  const number = inUnit(value, unit);
  return `${decimalText(number, placesOf(number) ?? 9)} ${unit}`;
}
