import type { BenchNote } from './bench-note.ts';
import { noteOf } from './bench-note.ts';
import { chance, type Draw, pick, whole } from './draw.ts';
import { type Fraction, fraction, mean, minus, negative, over, times } from './fraction.ts';
import { inBase, inUnit, type Measure, spellMeasure, UNITS, type Unit } from './measure.ts';
import { grainsOfMain, seeVernier, smallestStep, type VernierShape } from './physical-vernier.ts';
import type { VernierFamily } from './vernier-shape.ts';
import { drawShape } from './vernier-shape.ts';
import { drawVernierZero } from './vernier-zero.ts';

/** The main scale: `units` of its unit hold `divisions` divisions. */
export interface MainScale {
  readonly measure: Measure;
  readonly unit: Unit;
  readonly units: number;
  readonly divisions: number;
}

const MAIN_SCALES: readonly MainScale[] = [
  { measure: 'metric', unit: 'mm', units: 1, divisions: 1 },
  { measure: 'metric', unit: 'mm', units: 1, divisions: 2 },
  { measure: 'metric', unit: 'cm', units: 1, divisions: 10 },
  { measure: 'metric', unit: 'cm', units: 1, divisions: 20 },
  { measure: 'metric', unit: 'mm', units: 2, divisions: 1 },
  { measure: 'metric', unit: 'cm', units: 3, divisions: 7 },
  { measure: 'inch', unit: 'in', units: 1, divisions: 20 },
  { measure: 'inch', unit: 'in', units: 1, divisions: 40 },
  { measure: 'inch', unit: 'in', units: 1, divisions: 16 },
  { measure: 'angle', unit: 'deg', units: 1, divisions: 1 },
  { measure: 'angle', unit: 'deg', units: 1, divisions: 2 },
  { measure: 'angle', unit: 'deg', units: 1, divisions: 3 },
  { measure: 'angle', unit: 'deg', units: 1, divisions: 6 },
];

export function drawMainScale(draw: Draw): MainScale {
  return pick(draw, MAIN_SCALES);
}

/** One main division in the base unit. */
export function mainDivision(scale: MainScale): Fraction {
  return over(inBase(fraction(scale.units), scale.unit), fraction(scale.divisions));
}

/** A random vernier of one family, a random position that it shows exactly, and the block that a tutor writes. */
export function drawVernierNote(draw: Draw, family: VernierFamily): BenchNote {
  const scale = drawMainScale(draw);
  const shape = drawShape(draw, family);
  const division = mainDivision(scale);
  const grain = over(division, fraction(grainsOfMain(shape)));
  const grains = drawPosition(draw, shape);
  const seen = seeVernier(shape, grains);
  const met = pick(draw, seen.inLine);
  const zero = chance(draw) ? drawVernierZero(draw, shape, division, scale.measure) : null;
  const byMark = met.mark >= 0 && whole(draw, 0, 2) === 2;
  const reading = byMark
    ? `coinciding main mark: ${spellMark(draw, scale, met.mark)}`
    : `${pick(draw, ['main scale reading', 'MSR'])}: ${spellMark(draw, scale, seen.mark)}`;
  const records = [
    ...spellScales(draw, scale, shape),
    reading,
    `${pick(draw, ['coinciding division', 'vernier coincidence', 'VC', 'n'])}: ${met.line}`,
    ...(zero?.lines ?? []),
  ];
  const position = times(fraction(grains), grain);
  const error = zero && mean(zero.errors);
  return {
    text: noteOf(draw, records, chance(draw) ? ['observed reading = ?'] : []),
    expected: {
      'observed reading': position,
      'least count': times(fraction(smallestStep(shape)), grain),
      ...(error && {
        'zero error': error,
        'zero correction': negative(error),
        'corrected reading': minus(position, error),
      }),
    },
  };
}

/** A position halfway between two that the vernier shows: two neighbouring lines share the coincidence. */
export function drawSharedNote(draw: Draw, family: VernierFamily): BenchNote {
  const scale = drawMainScale(draw);
  const shape = drawShape(draw, family);
  const grain = over(mainDivision(scale), fraction(grainsOfMain(shape)));
  const grains = drawPosition(draw, shape) + 1;
  const seen = seeVernier(shape, grains);
  if (seen.between === null) throw new Error('no two lines share the coincidence');
  const records = [
    ...spellScales(draw, scale, shape),
    `main scale reading: ${spellMark(draw, scale, seen.mark)}`,
    `coinciding division: between ${seen.between} and ${seen.between + 1}`,
  ];
  return { text: noteOf(draw, records), expected: { 'observed reading': times(fraction(grains), grain) } };
}

/** Two neighbouring marks stand for the main scale reading and, without a main scale line, for the division too. */
export function drawNeighboursNote(draw: Draw, family: VernierFamily): BenchNote {
  const scale = drawMainScale(draw);
  const shape = drawShape(draw, family);
  const division = mainDivision(scale);
  const grain = over(division, fraction(grainsOfMain(shape)));
  const grains = drawPosition(draw, shape);
  const seen = seeVernier(shape, grains);
  const low = spellMeasure(draw, times(fraction(seen.mark), division), scale.measure);
  const high = spellMeasure(draw, times(fraction(seen.mark + 1), division), scale.measure);
  const records = [
    ...(chance(draw) ? [spellMainScale(draw, scale)] : []),
    ...spellRatio(draw, scale, shape, false),
    `MSR: between ${low} and ${high}`,
    `coinciding division: ${pick(draw, seen.inLine).line}`,
  ];
  return {
    text: noteOf(draw, records),
    expected: {
      'observed reading': times(fraction(grains), grain),
      'least count': times(fraction(smallestStep(shape)), grain),
    },
  };
}

/** Only the least count is given, as for calipers that nobody has looked at closely. */
export function drawLeastCountNote(draw: Draw): BenchNote {
  const scale = drawMainScale(draw);
  const shape = drawShape(draw, 'direct');
  const division = mainDivision(scale);
  const grain = over(division, fraction(grainsOfMain(shape)));
  const grains = drawPosition(draw, shape);
  const seen = seeVernier(shape, grains);
  const step = times(fraction(smallestStep(shape)), grain);
  const records = [
    `${pick(draw, ['least count', 'LC', 'vernier constant'])}: ${spellMeasure(draw, step, scale.measure)}`,
    `main scale reading: ${spellMeasure(draw, times(fraction(seen.mark), division), scale.measure)}`,
    `coinciding division: ${seen.inLine[0]?.line}`,
  ];
  return { text: noteOf(draw, records), expected: { 'observed reading': times(fraction(grains), grain) } };
}

/** A place within sixty main divisions at which some line of this vernier meets a mark. */
function drawPosition(draw: Draw, shape: VernierShape): number {
  const step = smallestStep(shape);
  return step * whole(draw, 0, Math.floor((60 * grainsOfMain(shape)) / step));
}

function spellMark(draw: Draw, scale: MainScale, mark: number): string {
  const length = spellMeasure(draw, times(fraction(mark), mainDivision(scale)), scale.measure);
  return length === null || whole(draw, 0, 3) === 3 ? `${mark} MSD` : length;
}

export function spellScales(draw: Draw, scale: MainScale, shape: VernierShape): string[] {
  return [spellMainScale(draw, scale), ...spellRatio(draw, scale, shape, true)];
}

function spellMainScale(draw: Draw, scale: MainScale): string {
  const one = spellMeasure(draw, mainDivision(scale), scale.measure);
  return pick(draw, [
    `main scale: ${scale.units} ${scale.unit} = ${scale.divisions} MSD`,
    `main scale: ${scale.divisions} MSD = ${scale.units} ${scale.unit}`,
    ...(one === null ? [] : [`main scale: 1 MSD = ${one}`]),
  ]);
}

function spellRatio(draw: Draw, scale: MainScale, shape: VernierShape, lengths: boolean): string[] {
  const span = spellMeasure(draw, times(fraction(shape.spans), mainDivision(scale)), scale.measure);
  const one = over(times(fraction(shape.spans), mainDivision(scale)), fraction(shape.lines));
  const decimal = UNITS[scale.measure]
    .map(unit => inUnit(one, unit))
    .some(value => 10n ** 6n % value.bottom === 0n);
  const ways = [
    [`vernier scale: ${shape.lines} VSD = ${shape.spans} MSD`],
    [`vernier scale: ${shape.lines} divisions = ${shape.spans} MSD`],
    [`vernier scale: ${shape.spans} MSD = ${shape.lines} VSD`],
    [`vernier scale: ${shape.lines} divisions`, `vernier scale: 1 VSD = ${shape.spans}/${shape.lines} MSD`],
    ...(lengths && span !== null ? [[`vernier scale: ${shape.lines} VSD = ${span}`]] : []),
    ...(lengths && decimal
      ? [
          [
            `vernier scale: ${shape.lines} divisions`,
            `vernier scale: 1 VSD = ${spellMeasure(draw, one, scale.measure)}`,
          ],
        ]
      : []),
  ];
  const runs = shape.backward ? ['vernier runs: backward'] : chance(draw) ? [] : ['vernier runs: forward'];
  return [...pick(draw, ways), ...runs];
}
