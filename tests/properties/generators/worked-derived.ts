import { chance, type Draw, pick, whole } from './draw.ts';
import {
  decimalText,
  type Fraction,
  firstPlace,
  fraction,
  over,
  plus,
  size,
  times,
  toPower,
} from './fraction.ts';
import { inUnit, type Measure } from './measure.ts';
import { claim } from './spelling.ts';
import { maybe, some, type WorkedBlock } from './worked-vernier.ts';

/** The ratio of a circle to its diameter to forty places (OEIS A000796). */
export const PI = fraction(31415926535897932384626433832795028841972n, 10n ** 40n);

interface Solid {
  readonly words: string;
  readonly symbol: string;
  readonly factor: Fraction;
  readonly power: number;
  /** The formula with the diameter's name or number put in. */
  readonly formula: (diameter: string) => string;
}

const SOLIDS: readonly Solid[] = [
  { words: 'volume', symbol: 'v', factor: over(PI, fraction(6)), power: 3, formula: d => `pi ${d}^3 / 6` },
  {
    words: 'section area',
    symbol: 'A',
    factor: over(PI, fraction(4)),
    power: 2,
    formula: d => `pi ${d}^2 / 4`,
  },
  { words: 'surface', symbol: 'F', factor: PI, power: 2, formula: d => `pi ${d}^2` },
  { words: 'circumference', symbol: 'c', factor: PI, power: 1, formula: d => `pi ${d}` },
  { words: 'cube', symbol: 'q', factor: fraction(1), power: 3, formula: d => `${d}^3` },
];

/** Decimals for a value whose error is known: down to the error's first digit, or one more. */
export function placesFor(draw: Draw, error: Fraction): number {
  return Math.max(0, firstPlace(error) + whole(draw, 0, 1));
}

/** An error with two figures at most. */
export function errorNumber(draw: Draw, error: Fraction): string {
  return decimalText(error, placesFor(draw, error));
}

/** Something worked out from a reading of another block, and the errors of it. */
export function drawWorkedDerived(
  draw: Draw,
  name: string,
  from: WorkedBlock,
  measure: Measure,
  error: Fraction,
): string[] {
  const unit = measure === 'metric' ? 'cm' : 'in';
  const length = inUnit(from.corrected, unit);
  const lengthError = over(inUnit(error, unit), length);
  const solid = pick(draw, SOLIDS);
  const value = times(solid.factor, toPower(length, solid.power));
  const relative = times(fraction(solid.power), lengthError);
  const unitText =
    solid.power === 1 ? unit : `${unit}${solid.power === 2 && chance(draw) ? '²' : `^${solid.power}`}`;
  const shown = `${decimalText(value, placesFor(draw, times(value, relative)))} ${unitText}`;
  const body = solid.power === 3 && measure === 'metric' && chance(draw);
  return [
    `\`\`\`measurement ${name}`,
    `D: ${from.term} of ${from.name}`,
    ...(body ? drawDensity(draw, value, relative, solid) : []),
    ...claim(draw, `${solid.words} ${solid.symbol}`, [
      solid.formula('D'),
      ...some(draw, [solid.formula(`(${from.shown})`)]),
      shown,
    ]),
    ...drawErrorClaims(draw, solid.symbol, value, relative, unitText),
    '```',
  ];
}

function drawDensity(draw: Draw, volume: Fraction, relativeVolume: Fraction, solid: Solid): string[] {
  const rough = times(volume, fraction(whole(draw, 20, 90), 10));
  const places = Math.max(0, firstPlace(rough) + 2);
  const mass = decimalText(rough, places);
  const massValue = fraction(BigInt(mass.replace('.', '')), 10n ** BigInt(places));
  const massError = over(fraction(1, 10n ** BigInt(places)), massValue);
  const density = over(massValue, volume);
  const relative = plus(massError, relativeVolume);
  const percent = errorNumber(draw, times(relative, fraction(100)));
  return [
    `m: ${mass} g ± ${decimalText(fraction(1, 10n ** BigInt(places)), places)} g`,
    ...claim(draw, 'density rho', [
      `m / ${solid.symbol}`,
      `${decimalText(density, placesFor(draw, times(density, relative)))} g/cm^3`,
    ]),
    ...maybe(draw, () => claim(draw, 'percentage error of rho', [`${percent} %`])),
  ];
}

function drawErrorClaims(
  draw: Draw,
  symbol: string,
  value: Fraction,
  relative: Fraction,
  unit: string,
): string[] {
  return [
    ...maybe(draw, () => claim(draw, `relative error of ${symbol}`, [errorNumber(draw, relative)])),
    ...maybe(draw, () =>
      claim(draw, `percentage error of ${symbol}`, [
        `${errorNumber(draw, times(relative, fraction(100)))} %`,
      ]),
    ),
    ...maybe(draw, () =>
      claim(draw, `absolute error of ${symbol}`, [
        `${errorNumber(draw, times(size(value), relative))} ${unit}`,
      ]),
    ),
  ];
}

/** A product of powers of factors whose values nobody gave: only their percentage errors are known. */
export function drawWorkedPowers(draw: Draw, name: string): string[] {
  const factors = [
    { symbol: 'm', kind: 'mass' },
    { symbol: 'L', kind: 'length' },
    { symbol: 'T', kind: 'time' },
    { symbol: 'k', kind: 'number' },
  ].slice(0, whole(draw, 2, 4));
  const drawn = factors.map(factor => ({
    ...factor,
    power: pick(draw, [1, 2, 3, -1, -2, -3]),
    tenths: whole(draw, 1, 50),
  }));
  const term = (symbol: string, power: number) => (power === 1 ? symbol : `${symbol}^${power}`);
  const above = drawn.filter(factor => factor.power > 0).map(factor => term(factor.symbol, factor.power));
  const below = drawn.filter(factor => factor.power < 0).map(factor => term(factor.symbol, -factor.power));
  const top = above.length > 0 ? above.join(' × ') : '1';
  const formula = below.length > 0 ? `${top} / (${below.join(' × ')})` : top;
  const percent = plus(...drawn.map(({ power, tenths }) => fraction(Math.abs(power) * tenths, 10)));
  const sum = drawn.map(({ power, tenths }) => {
    const one = `${decimalText(fraction(tenths, 10), 1)} %`;
    return Math.abs(power) === 1 ? one : `${Math.abs(power)} × ${one}`;
  });
  return [
    `\`\`\`measurement ${name}`,
    ...drawn.map(
      ({ symbol, kind, tenths }) => `${symbol}: any ${kind} ± ${decimalText(fraction(tenths, 10), 1)} %`,
    ),
    `strength Z = ${formula}`,
    ...claim(draw, 'percentage error of Z', [
      ...some(draw, [sum.join(' + ')]),
      `${decimalText(percent, 1)} %`,
    ]),
    '```',
  ];
}
