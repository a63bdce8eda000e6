/**
 * What kind of quantity something is, as powers of the base ones: a density is mass 1, length -3.
 *
 * Degrees Celsius are a base of their own, so that 20 °C never turns into 20 K in silence; so are angles. The powers
 * are whole numbers or halves.
 */
export interface Dimension {
  readonly length: number;
  readonly mass: number;
  readonly time: number;
  readonly current: number;
  readonly temperature: number;
  readonly celsius: number;
  readonly amount: number;
  readonly luminosity: number;
  readonly angle: number;
}

export type Base = keyof Dimension;

export const BASES: readonly Base[] = [
  'length',
  'mass',
  'time',
  'current',
  'temperature',
  'celsius',
  'amount',
  'luminosity',
  'angle',
];

/** The dimension of a plain number. */
export const NO_DIMENSION: Dimension = {
  length: 0,
  mass: 0,
  time: 0,
  current: 0,
  temperature: 0,
  celsius: 0,
  amount: 0,
  luminosity: 0,
  angle: 0,
};

/** A dimension from the powers that are not nought: `dimension({ mass: 1, length: -3 })`. */
export function dimension(powers: Partial<Dimension>): Dimension {
  return { ...NO_DIMENSION, ...powers };
}

/**
 * Whether both are the same kind of quantity, so that they can be added and compared.
 *
 * Beside other units a degree Celsius is a step of one kelvin: J/(g °C) is J/(g K), and so is °C^-1 K^-1.
 */
export function sameDimension(a: Dimension, b: Dimension): boolean {
  return a === b || BASES.every(base => a[base] === b[base]) || sameSteps(a, b);
}

function sameSteps(a: Dimension, b: Dimension): boolean {
  if (a.celsius === b.celsius || isCelsius(a) || isCelsius(b)) return false;
  const others = BASES.filter(base => base !== 'celsius' && base !== 'temperature');
  return a.temperature + a.celsius === b.temperature + b.celsius && others.every(base => a[base] === b[base]);
}

/** A temperature on the Celsius scale, which has a nought of its own. */
function isCelsius(a: Dimension): boolean {
  return a.celsius === 1 && BASES.every(base => base === 'celsius' || a[base] === 0);
}

/** Whether it is a plain number. */
export function isPlain(a: Dimension): boolean {
  return a === NO_DIMENSION || sameDimension(a, NO_DIMENSION);
}

/** The dimension of a × b^times: with times 1 a product, with -1 a quotient. */
export function combined(a: Dimension, b: Dimension, times: number): Dimension {
  if (b === NO_DIMENSION) return a;
  return {
    length: a.length + times * b.length,
    mass: a.mass + times * b.mass,
    time: a.time + times * b.time,
    current: a.current + times * b.current,
    temperature: a.temperature + times * b.temperature,
    celsius: a.celsius + times * b.celsius,
    amount: a.amount + times * b.amount,
    luminosity: a.luminosity + times * b.luminosity,
    angle: a.angle + times * b.angle,
  };
}

const MOST = 400;

/** The dimension of a^times; null where a power would be neither whole nor a half, or absurdly high. */
export function raised(a: Dimension, times: number): Dimension | null {
  const result = combined(NO_DIMENSION, a, times);
  return BASES.every(base => Number.isInteger(result[base] * 2) && Math.abs(result[base]) <= MOST)
    ? result
    : null;
}

/** Two powers that are one and the same need one name: the words a tutor uses for a kind of quantity. */
export const NAMED_DIMENSIONS: readonly { readonly text: string; readonly dimension: Dimension }[] = [
  { text: 'a plain number', dimension: NO_DIMENSION },
  { text: 'a length', dimension: dimension({ length: 1 }) },
  { text: 'an area', dimension: dimension({ length: 2 }) },
  { text: 'a volume', dimension: dimension({ length: 3 }) },
  { text: 'a mass', dimension: dimension({ mass: 1 }) },
  { text: 'a time', dimension: dimension({ time: 1 }) },
  { text: 'an angle', dimension: dimension({ angle: 1 }) },
  { text: 'a temperature in kelvin', dimension: dimension({ temperature: 1 }) },
  { text: 'a temperature in degrees Celsius', dimension: dimension({ celsius: 1 }) },
  { text: 'a current', dimension: dimension({ current: 1 }) },
  { text: 'an amount of substance', dimension: dimension({ amount: 1 }) },
  { text: 'a luminous intensity', dimension: dimension({ luminosity: 1 }) },
  { text: 'a density', dimension: dimension({ mass: 1, length: -3 }) },
  { text: 'a speed', dimension: dimension({ length: 1, time: -1 }) },
  { text: 'an acceleration', dimension: dimension({ length: 1, time: -2 }) },
  { text: 'a frequency', dimension: dimension({ time: -1 }) },
  { text: 'an angular speed', dimension: dimension({ angle: 1, time: -1 }) },
  { text: 'a force', dimension: dimension({ mass: 1, length: 1, time: -2 }) },
  { text: 'a pressure', dimension: dimension({ mass: 1, length: -1, time: -2 }) },
  { text: 'an energy', dimension: dimension({ mass: 1, length: 2, time: -2 }) },
  { text: 'a power', dimension: dimension({ mass: 1, length: 2, time: -3 }) },
  { text: 'a force per length', dimension: dimension({ mass: 1, time: -2 }) },
  { text: 'a viscosity', dimension: dimension({ mass: 1, length: -1, time: -1 }) },
  { text: 'a charge', dimension: dimension({ current: 1, time: 1 }) },
  { text: 'a voltage', dimension: dimension({ mass: 1, length: 2, time: -3, current: -1 }) },
  { text: 'a resistance', dimension: dimension({ mass: 1, length: 2, time: -3, current: -2 }) },
  { text: 'a resistivity', dimension: dimension({ mass: 1, length: 3, time: -3, current: -2 }) },
];

/** The kind of quantity in words: `a length`, `a density`, else by its powers: `length^2·time^-1`. */
export function dimensionText(a: Dimension): string {
  const named = NAMED_DIMENSIONS.find(entry => sameDimension(entry.dimension, a));
  if (named !== undefined) return named.text;
  return BASES.filter(base => a[base] !== 0)
    .map(base => (a[base] === 1 ? BASE_WORDS[base] : `${BASE_WORDS[base]}^${a[base]}`))
    .join('·');
}

const BASE_WORDS: Readonly<Record<Base, string>> = {
  length: 'length',
  mass: 'mass',
  time: 'time',
  current: 'current',
  temperature: 'temperature',
  celsius: 'Celsius temperature',
  amount: 'amount',
  luminosity: 'luminosity',
  angle: 'angle',
};
