import { chance, type Draw, pick, whole } from './draw.ts';
import {
  atPlaces,
  decimalText,
  type Fraction,
  fraction,
  isSame,
  mean,
  minus,
  negative,
  over,
  placesOf,
  plus,
  size,
  times,
} from './fraction.ts';
import { inUnit } from './measure.ts';
import { seeScrew } from './physical-screw.ts';
import type { SlipCase } from './slip-case.ts';
import { drawScrewSetting, type ScrewSetting, screwLines } from './worked-screw.ts';
import { briefly, exactly } from './worked-setting.ts';

export type ScrewSlip =
  | 'half-turn-missed'
  | 'circular-reading-times-pitch'
  | 'pitch-as-one-division'
  | 'division-miscounted'
  | 'closed-division-as-read'
  | 'zero-correction-left-out'
  | 'zero-correction-sign'
  | 'zero-correction-twice'
  | 'rotation-miscounted'
  | 'full-circle-missed'
  | 'rows-left-out'
  | 'signed-deviations';

/** A random screw on which the slip was made once; null where it comes to the right value after all. */
export function drawScrewSlip(draw: Draw, slip: ScrewSlip): SlipCase | null {
  const setting = drawScrewSetting(draw);
  switch (slip) {
    case 'rotation-miscounted':
    case 'full-circle-missed':
      return drawDiscSlip(draw, setting, slip);
    case 'rows-left-out':
    case 'signed-deviations':
      return drawTableSlip(draw, setting, slip);
    case 'pitch-as-one-division':
      return drawPitchSlip(draw, setting);
    default:
      return drawReadingSlip(draw, setting, slip);
  }
}

function drawPitchSlip(draw: Draw, setting: ScrewSetting): SlipCase | null {
  const { pitch, linear, circular, unit, leastCount } = setting;
  if (linear === 1) return null;
  const division = over(pitch, fraction(linear));
  const ofPitch = chance(draw);
  const [term, right] = ofPitch ? (['pitch', pitch] as const) : (['least count', leastCount] as const);
  const stated = ofPitch ? division : over(division, fraction(circular));
  const numbers = `${briefly(division, unit)} / ${circular}`;
  const links = [...(!ofPitch && chance(draw) ? [numbers] : []), briefly(stated, unit)];
  const lines = [...screwLines(setting, 5), `${term} = ${links.join(' = ')}`];
  return { lines, link: links[0]!, slip: 'pitch-as-one-division', stated, right, others: [] };
}

type ReadingSlip = Exclude<
  ScrewSlip,
  | 'rotation-miscounted'
  | 'full-circle-missed'
  | 'rows-left-out'
  | 'signed-deviations'
  | 'pitch-as-one-division'
>;

function drawReadingSlip(draw: Draw, setting: ScrewSetting, slip: ReadingSlip): SlipCase | null {
  const { pitch, linear, circular, unit, leastCount, shape } = setting;
  const steps = circular + whole(draw, 1, 12 * circular);
  const zeroSteps = whole(draw, 1, circular - 1) * pick(draw, [-1, 1]);
  const seen = seeScrew(shape, steps * shape.perCircular);
  const closed = seeScrew(shape, zeroSteps * shape.perCircular);
  const mark = times(fraction(seen.mark), over(pitch, fraction(linear)));
  const [position, zero] = [times(fraction(steps), leastCount), times(fraction(zeroSteps), leastCount)];
  const asRead = times(fraction(closed.division), leastCount);
  const withPitch = plus(mark, times(fraction(seen.division), pitch));
  const readings: (readonly [string, Fraction])[] = [
    ['half-turn-missed', minus(position, pitch)],
    ['half-turn-missed', plus(position, pitch)],
    ['next-mark', plus(position, over(pitch, fraction(linear)))],
    ['circular-reading-times-pitch', withPitch],
    ['pitch-as-one-division', plus(mark, times(fraction(seen.division, linear), leastCount))],
    ['division-miscounted', plus(position, leastCount)],
    ['division-miscounted', minus(position, leastCount)],
  ];
  const zeros: (readonly [string, Fraction])[] = [
    ['closed-division-as-read', asRead],
    ['closed-division-as-read', negative(asRead)],
    ['division-miscounted', plus(zero, leastCount)],
    ['division-miscounted', minus(zero, leastCount)],
  ];
  const corrected: (readonly [string, Fraction])[] = [
    ...readings.map(([name, value]) => [name, minus(value, zero)] as const),
    ...zeros.map(([name, value]) => [name, minus(position, value)] as const),
    ['zero-correction-left-out', position],
    ['zero-correction-sign', plus(position, zero)],
    ['zero-correction-twice', minus(position, zero, zero)],
  ];
  const records = [
    ...screwLines(setting, 1),
    `closed: circular zero ${zeroSteps > 0 ? 'below' : 'above'} the line, division ${closed.division}`,
    `LSR: ${briefly(mark, unit)}`,
    `CSR: ${seen.division}`,
  ];
  const make = (
    term: string,
    right: Fraction,
    stated: Fraction,
    others: SlipCase['others'],
  ): SlipCase | null => {
    if (isSame(right, stated)) return null;
    const link = exactly(stated, unit, leastCount);
    return { lines: [...records, `${term} = ${link}`], link, slip, stated, right, others };
  };
  const right = minus(position, zero);
  switch (slip) {
    case 'half-turn-missed':
      return linear === 1 && isSame(pitch, fraction(1, 2))
        ? make('observed reading', position, minus(position, pitch), readings)
        : null;
    case 'circular-reading-times-pitch':
      return make('observed reading', position, withPitch, readings);
    case 'division-miscounted': {
      const off = pick(draw, [1, -1]);
      if (seen.division + off < 0 || circular <= seen.division + off) return null;
      return make('observed reading', position, plus(position, times(leastCount, fraction(off))), readings);
    }
    case 'closed-division-as-read':
      return zeroSteps > 0 ? null : make('zero error', zero, pick(draw, [asRead, negative(asRead)]), zeros);
    case 'zero-correction-left-out':
      return make('corrected reading', right, position, corrected);
    case 'zero-correction-sign':
      return make('corrected reading', right, plus(position, zero), corrected);
    case 'zero-correction-twice':
      return make('corrected reading', right, minus(position, zero, zero), corrected);
  }
}

/** A disc read before and after: a turn more or less, or the circle that was passed and not added. */
function drawDiscSlip(
  draw: Draw,
  setting: ScrewSetting,
  slip: 'rotation-miscounted' | 'full-circle-missed',
): SlipCase | null {
  const { pitch, circular, unit, leastCount } = setting;
  const rotations = whole(draw, 1, 6);
  const [initial, final] = [whole(draw, 0, circular - 1), whole(draw, 0, circular - 1)];
  const higher = chance(draw);
  const rise = higher ? final - initial : initial - final;
  if (slip === 'full-circle-missed' && rise >= 0) return null;
  const divisions = rotations * circular + (rise < 0 ? rise + circular : rise);
  const right = times(fraction(divisions), leastCount);
  const turns = times(fraction(rotations), pitch);
  const missed = [rise, -rise].map(part => plus(turns, times(fraction(part), leastCount)));
  const stated =
    slip === 'full-circle-missed'
      ? pick(draw, missed)
      : plus(right, times(pitch, pick(draw, [fraction(-1), fraction(1)])));
  if (isSame(right, stated)) return null;
  const link = exactly(stated, unit, leastCount);
  const lines = [
    `pitch: ${briefly(pitch, unit)}`,
    `circular scale: ${circular} divisions`,
    `full rotations: ${rotations}`,
    `initial circular reading: ${initial}`,
    `final circular reading: ${final}`,
    `turned: toward ${higher ? 'higher' : 'lower'} numbers`,
    `observed reading = ${link}`,
  ];
  const others: SlipCase['others'] = [
    ['rotation-miscounted', plus(right, pitch)],
    ['rotation-miscounted', minus(right, pitch)],
    ...(rise < 0 ? missed.map(value => ['full-circle-missed', value] as const) : []),
    ['division-miscounted', plus(right, leastCount)],
    ['division-miscounted', minus(right, leastCount)],
  ];
  return { lines, link, slip, stated, right, others };
}

/** Repeated readings: a row that the mean forgot, or deviations added with their signs. */
function drawTableSlip(
  draw: Draw,
  setting: ScrewSetting,
  slip: 'rows-left-out' | 'signed-deviations',
): SlipCase | null {
  const { pitch, linear, circular, unit, leastCount, shape } = setting;
  const first = 2 * circular + whole(draw, 0, 9 * circular);
  const steps = Array.from({ length: whole(draw, 3, 6) }, () => first + whole(draw, 0, 9));
  const readings = steps.map(step => times(fraction(step), leastCount));
  const middle = mean(readings);
  const left = pick(draw, [readings.length - 1, 0, whole(draw, 0, readings.length - 1)]);
  const without = readings.map((_, out) => mean(readings.filter((__, index) => index !== out)));
  const rows = steps.map(step => {
    const seen = seeScrew(shape, step * shape.perCircular);
    return `| ${briefly(times(fraction(seen.mark), over(pitch, fraction(linear))), unit)} | ${seen.division} |`;
  });
  const places = (placesOf(inUnit(leastCount, unit)) ?? 0) + 1;
  const scatter = mean(readings.map(value => size(minus(value, middle))));
  const ofMean = slip === 'rows-left-out';
  const [right, wrong] = ofMean ? [middle, without[left]!] : [scatter, fraction(0)];
  const stated = atPlaces(inUnit(wrong, unit), places);
  if (isSame(stated, atPlaces(inUnit(right, unit), places))) return null;
  const link = `${decimalText(stated, places)} ${unit}`;
  const cut = atPlaces(inUnit(right, unit), places, 'cut');
  return {
    lines: [
      ...screwLines(setting, 1),
      '| LSR | CSR |',
      '|-----|-----|',
      ...rows,
      `${ofMean ? 'mean observed reading' : 'mean absolute error'} = ${link}`,
    ],
    link,
    slip,
    stated,
    right,
    places,
    unit,
    others: [
      ...(ofMean ? without.map(value => ['rows-left-out', value] as const) : []),
      ...(isSame(cut, stated) ? [['cut-off', wrong] as const] : []),
    ],
  };
}
