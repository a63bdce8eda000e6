import { chance, type Draw, pick, whole } from './draw.ts';
import { type Fraction, fraction, mean, minus, negative, times } from './fraction.ts';
import { spellMeasure } from './measure.ts';
import { seeVernier, type VernierShape } from './physical-vernier.ts';
import { claim, record, spellTerm } from './spelling.ts';
import {
  briefly,
  drawVernierSetting,
  exactly,
  RATIOS,
  type Ratio,
  scaleLines,
  shapeOf,
  type VernierSetting,
} from './worked-setting.ts';

/** A block that is right from the first line to the last, and what others may build on. */
export interface WorkedBlock {
  readonly name: string;
  readonly lines: readonly string[];
  /** The part's size, in the base unit, and how far from it a reading may be. */
  readonly corrected: Fraction;
  readonly leastCount: Fraction;
  /** The corrected reading as the block writes it. */
  readonly shown: string;
  /** The term under which others find it. */
  readonly term: 'corrected reading' | 'mean corrected reading';
}

/** A vernier read once, every step of it claimed or left to the tool. */
export function drawWorkedVernier(
  draw: Draw,
  name: string,
): WorkedBlock & { readonly setting: VernierSetting } {
  const ratio = pick(draw, RATIOS);
  const setting = drawVernierSetting(draw, lines => shapeOf(ratio, lines));
  const { shape, unit, leastCount } = setting;
  const steps = 5 * shape.lines + whole(draw, 0, 60 * shape.lines);
  const seen = seeVernier(shape, 2 * steps);
  const line = seen.inLine[0]!.line;
  const position = times(fraction(steps), leastCount);
  const zero = drawZero(draw, setting, ratio);
  const corrected = minus(position, zero.error);
  const markPlace = times(fraction(seen.mark), setting.division);
  const records = [
    ...scaleLines(setting),
    ...zero.records,
    record(draw, spellTerm(draw, 'main scale reading'), spellMeasure(draw, markPlace, setting.measure)!),
    record(draw, spellTerm(draw, 'coinciding division'), `${line}`),
  ];
  const put = (value: Fraction) => exactly(value, unit, leastCount);
  const counted = ratio.numbering === 'n' ? `${line}` : `(${shape.lines} - ${line})`;
  const plainRule = ratio.numbering === 'N - n' && line === 0 ? null : ratio.numbering;
  const rule = plainRule === null ? [] : [[`MSR + ${plainRule === 'n' ? 'n' : '(N - n)'} × LC`]];
  const numbers =
    plainRule === null ? [] : [[`${briefly(markPlace, unit)} + ${counted} × ${briefly(leastCount, unit)}`]];
  const claims = [
    ...maybe(draw, () =>
      claim(draw, spellTerm(draw, 'least count'), drawLeastCountLinks(draw, setting, ratio)),
    ),
    ...zero.claims,
    ...(plainRule === null
      ? []
      : maybe(draw, () =>
          claim(draw, spellTerm(draw, 'vernier scale reading'), [
            ...some(draw, [`${plainRule === 'n' ? 'n' : '(N - n)'} × LC`]),
            put(minus(position, markPlace)),
          ]),
        )),
    ...maybe(draw, () =>
      claim(draw, spellTerm(draw, 'observed reading'), [
        ...some(draw, pick(draw, [...rule, ['MSR + VSR']])),
        ...some(
          draw,
          pick(draw, [
            ...numbers,
            [`${briefly(markPlace, unit)} + ${briefly(minus(position, markPlace), unit)}`],
          ]),
        ),
        put(position),
      ]),
    ),
    ...claim(draw, spellTerm(draw, 'corrected reading'), [
      ...some(draw, [pick(draw, ['observed reading - zero error', 'observed reading + zero correction'])]),
      ...some(draw, [`${put(position)} - ${bracketed(briefly(zero.error, unit))}`]),
      put(corrected),
    ]),
  ];
  return {
    name,
    lines: [...records, ...claims],
    corrected,
    leastCount,
    shown: put(corrected),
    term: 'corrected reading',
    setting,
  };
}

/** The zero as it is looked at or given, and the claims about it. */
function drawZero(draw: Draw, setting: VernierSetting, ratio: Ratio) {
  const { shape, leastCount, unit } = setting;
  const steps = whole(draw, 0, 2 * (shape.lines - 2)) - (shape.lines - 2);
  const error = times(fraction(steps), leastCount);
  const shown = exactly(error, unit, leastCount, chance(draw));
  const given = whole(draw, 0, 4) === 4;
  if (given) {
    const line = chance(draw)
      ? `zero error: ${shown}`
      : `zero correction: ${exactly(negative(error), unit, leastCount)}`;
    return { error, records: [line], claims: [] as string[] };
  }
  const twice = steps > 1 && chance(draw);
  const seenAt = twice ? [steps - 1, steps + 1] : [steps];
  const checks = seenAt.map(at => closedLine(shape, at));
  const lines = seeVernier(shape, 2 * steps).inLine.map(met => met.line);
  const line = lines[0] ?? 0;
  const direct = ratio.name === 'direct' && !twice && steps !== 0;
  const formula = direct
    ? steps > 0
      ? [`${line} × LC`, `${line} × ${briefly(leastCount, unit)}`]
      : [`-(N - ${line}) × LC`, `-(${shape.lines} - ${line}) × ${briefly(leastCount, unit)}`]
    : [`${steps} × LC`, `${steps} × ${briefly(leastCount, unit)}`];
  const claims = [
    ...maybe(draw, () =>
      claim(draw, spellTerm(draw, 'zero error'), [...some(draw, [pick(draw, formula)]), shown]),
    ),
    ...maybe(draw, () =>
      claim(draw, spellTerm(draw, 'zero correction'), [
        ...some(draw, ['-zero error']),
        exactly(negative(error), unit, leastCount, chance(draw)),
      ]),
    ),
  ];
  return { error: mean(seenAt.map(at => times(fraction(at), leastCount))), records: checks, claims };
}

function closedLine(shape: VernierShape, steps: number): string {
  if (steps === 0) return 'closed: zeros coincide';
  const line = seeVernier(shape, 2 * steps).inLine[0]!.line;
  return `closed: vernier zero ${steps > 0 ? 'right' : 'left'}, division ${line}`;
}

function drawLeastCountLinks(draw: Draw, setting: VernierSetting, ratio: Ratio): string[] {
  const { division, vernierDivision, leastCount, shape, measure } = setting;
  const unit = measure === 'metric' ? 'mm' : setting.unit;
  const [s, v] = [briefly(division, unit), briefly(vernierDivision, unit)];
  const fill = (main: string, twice: string, vernier: string) =>
    ratio.difference.replace(/2 S|S|V/g, part => (part === 'V' ? vernier : part === 'S' ? main : twice));
  const difference = fill(s, `2 × ${s}`, v);
  const ways = [
    [ratio.difference, difference],
    [fill('1 MSD', '2 MSD', '1 VSD'), difference],
    ['S/N', `${s}/${shape.lines}`],
    [`1 MSD / ${shape.lines}`, `${s.split(' ')[0]}/${shape.lines} ${unit}`],
  ];
  const [formula, numbers] = pick(draw, ways) as [string, string];
  return [
    ...some(draw, [formula]),
    ...some(draw, [numbers]),
    briefly(leastCount, pick(draw, [unit, setting.unit])),
  ];
}

function bracketed(value: string): string {
  return value.startsWith('-') ? `(${value})` : value;
}

export function some<T>(draw: Draw, items: readonly T[]): readonly T[] {
  return chance(draw) ? items : [];
}

export function maybe(draw: Draw, lines: () => string[]): string[] {
  return chance(draw) ? lines() : [];
}
