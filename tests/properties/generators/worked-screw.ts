import { chance, type Draw, pick, whole } from './draw.ts';
import {
  decimalText,
  type Fraction,
  firstPlace,
  fraction,
  mean,
  minus,
  negative,
  over,
  placesOf,
  size,
  times,
} from './fraction.ts';
import { inBase, inUnit, type Measure, type Unit } from './measure.ts';
import { type ScrewShape, seeScrew } from './physical-screw.ts';
import { claim, record, spellTerm } from './spelling.ts';
import { briefly, exactly } from './worked-setting.ts';
import { maybe, some, type WorkedBlock } from './worked-vernier.ts';

/** A screw whose steps are decimals. */
export interface ScrewSetting {
  readonly measure: Measure;
  readonly unit: Unit;
  readonly pitch: Fraction;
  readonly circular: number;
  /** Linear divisions to a rotation. */
  readonly linear: number;
  readonly leastCount: Fraction;
  readonly shape: ScrewShape;
}

const SCREWS: readonly (readonly [Measure, Unit, number, number, number, number])[] = [
  ['metric', 'mm', 1, 2, 50, 1],
  ['metric', 'mm', 1, 1, 100, 1],
  ['metric', 'mm', 1, 2, 100, 1],
  ['metric', 'mm', 1, 1, 50, 2],
  ['metric', 'mm', 1, 1, 100, 2],
  ['inch', 'in', 1, 40, 25, 1],
];

export function drawScrewSetting(draw: Draw): ScrewSetting {
  const [measure, unit, top, bottom, circular, linear] = pick(draw, SCREWS);
  const pitch = inBase(fraction(top, bottom), unit);
  const shape = { circular, perCircular: 2 * linear, perLinear: 2 * circular };
  return { measure, unit, pitch, circular, linear, leastCount: over(pitch, fraction(circular)), shape };
}

export function screwLines(setting: ScrewSetting, turns: number): string[] {
  const { unit, pitch, circular, linear } = setting;
  const division = over(pitch, fraction(linear));
  return [
    `screw: ${turns} ${turns === 1 ? 'rotation' : 'rotations'} = ${briefly(times(pitch, fraction(turns)), unit)}`,
    `linear scale: ${briefly(times(division, fraction(2)), unit)} = 2 LSD`,
    `circular scale: ${circular} divisions`,
  ];
}

/** A screw with its zero, a table of repeated readings, and their mean. */
export function drawWorkedScrew(draw: Draw, name: string): WorkedBlock & { readonly setting: ScrewSetting } {
  const setting = drawScrewSetting(draw);
  const { unit, leastCount, circular, pitch } = setting;
  const turns = pick(draw, [1, 5, 10]);
  const zeroSteps = whole(draw, 0, 2 * (circular - 1)) - (circular - 1);
  const zeroError = times(fraction(zeroSteps), leastCount);
  const put = (value: Fraction, signed = false) => exactly(value, unit, leastCount, signed);
  const first = 3 * circular + whole(draw, 0, 12 * circular);
  const steps = Array.from({ length: whole(draw, 2, 6) }, () => first + whole(draw, 0, 6));
  const corrected = steps.map(step => times(fraction(step - zeroSteps), leastCount));
  const middle = mean(corrected);
  const places = (placesOf(inUnit(leastCount, unit)) ?? 0) + whole(draw, 0, 1);
  const shownMean = `${decimalText(inUnit(middle, unit), places)} ${unit}`;
  const deviation = mean(corrected.map(value => size(minus(value, middle))));
  const symbol = chance(draw) ? ' D' : '';
  const lines = [
    ...(chance(draw) ? ['instrument: screw gauge'] : []),
    ...screwLines(setting, turns),
    closedLine(draw, setting, zeroSteps),
    ...maybe(draw, () =>
      claim(draw, spellTerm(draw, 'pitch'), [
        ...some(draw, [`${briefly(times(pitch, fraction(turns)), unit)} / ${turns}`]),
        briefly(pitch, unit),
      ]),
    ),
    ...maybe(draw, () =>
      claim(draw, spellTerm(draw, 'least count'), [
        ...some(draw, [pick(draw, [`pitch / ${circular}`, 'pitch / N'])]),
        ...some(draw, [`${briefly(pitch, unit)} / ${circular}`]),
        briefly(leastCount, unit),
      ]),
    ),
    ...maybe(draw, () =>
      claim(draw, spellTerm(draw, 'zero error'), [
        ...some(draw, [zeroFormula(setting, zeroSteps)]),
        put(zeroError, chance(draw)),
      ]),
    ),
    ...maybe(draw, () => claim(draw, spellTerm(draw, 'zero correction'), [put(negative(zeroError), true)])),
    '',
    ...table(draw, setting, steps, zeroSteps),
    '',
    ...claim(draw, spellTerm(draw, 'mean corrected reading') + symbol, [shownMean]),
    ...(deviation.top === 0n
      ? []
      : maybe(draw, () => claim(draw, 'mean absolute error', [errorText(draw, deviation, unit)]))),
  ];
  return {
    name,
    lines,
    corrected: middle,
    leastCount,
    shown: shownMean,
    term: 'mean corrected reading',
    setting,
  };
}

/** An error with one figure or two. */
export function errorText(draw: Draw, value: Fraction, unit: Unit): string {
  const number = inUnit(value, unit);
  return `${decimalText(number, Math.max(0, firstPlace(number)) + whole(draw, 0, 1))} ${unit}`;
}

function closedLine(draw: Draw, setting: ScrewSetting, steps: number): string {
  if (steps === 0) return record(draw, 'closed', 'zeros coincide');
  const { division } = seeScrew(setting.shape, steps * setting.shape.perCircular);
  const side = steps > 0 ? 'below' : 'above';
  return record(
    draw,
    pick(draw, ['closed', 'at zero']),
    `circular zero ${side} the line, division ${division}`,
  );
}

function zeroFormula(setting: ScrewSetting, steps: number): string {
  const { circular, leastCount, unit } = setting;
  const step = briefly(leastCount, unit);
  return steps >= 0 ? `${steps} × ${step}` : `-(${circular} - ${circular + steps}) × ${step}`;
}

/** One reading a row, the computed columns claimed or asked for, the unit in the header or in the cells. */
function table(draw: Draw, setting: ScrewSetting, steps: readonly number[], zeroSteps: number): string[] {
  const { unit, leastCount, pitch, linear } = setting;
  const inHeader = chance(draw);
  const counted = chance(draw);
  const dashes = whole(draw, 0, 4) < 4;
  const columns = ['LSR', 'CSR', 'observed reading', 'corrected reading'];
  const header = columns.map((column, index) => (inHeader && index !== 1 ? `${column} (${unit})` : column));
  const cell = (text: string) => (inHeader ? text.replace(` ${unit}`, '') : text);
  const rows = steps.map((step, index) => {
    const seen = seeScrew(setting.shape, step * setting.shape.perCircular);
    const mark = times(fraction(seen.mark), over(pitch, fraction(linear)));
    const reading = times(fraction(step), leastCount);
    const values = [
      cell(briefly(mark, unit)),
      `${seen.division}`,
      whole(draw, 0, 5) === 5 ? '?' : cell(exactly(reading, unit, leastCount)),
      whole(draw, 0, 5) === 5
        ? '?'
        : cell(exactly(minus(reading, times(fraction(zeroSteps), leastCount)), unit, leastCount)),
    ];
    return (
      row([...(counted ? [`${index + 1}`] : []), ...values]) +
      (whole(draw, 0, 9) === 9 ? ' # read twice' : '')
    );
  });
  const heads = [...(counted ? [pick(draw, ['S.No.', 'No.', '#'])] : []), ...header];
  return [row(heads), ...(dashes ? [row(heads.map(head => '-'.repeat(head.length)))] : []), ...rows];
}

function row(cells: readonly string[]): string {
  return `| ${cells.join(' | ')} |`;
}
