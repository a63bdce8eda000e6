import fc from 'fast-check';
import * as R from '../../server/src/engine/rational.ts';

/** A formula with the value that it must have: of a plain number, or of a length in metres. */
export type Made =
  | { readonly kind: 'number'; readonly text: string; readonly value: R.Rational }
  | { readonly kind: 'name'; readonly text: string; readonly value: R.Rational }
  | { readonly kind: 'length'; readonly digits: string; readonly unit: string; readonly value: R.Rational }
  | {
      readonly kind: 'add' | 'subtract' | 'times' | 'beside' | 'over';
      readonly left: Made;
      readonly right: Made;
      readonly value: R.Rational;
    }
  | { readonly kind: 'minus' | 'size' | 'brackets'; readonly of: Made; readonly value: R.Rational }
  | { readonly kind: 'power'; readonly of: Made; readonly exponent: number; readonly value: R.Rational };

export const LENGTH_NAMES: ReadonlyMap<string, R.Rational> = new Map([
  ['D', R.rational(127, 5000)],
  ['LC', R.rational(1, 50000)],
  ['q_0', R.rational(-3, 1000)],
  ['lambda', R.rational(7, 11)],
  ['observed reading', R.rational(2484, 100000)],
]);

export const NUMBER_NAMES: ReadonlyMap<string, R.Rational> = new Map([
  ['k', R.rational(17)],
  ['p1', R.rational(-5, 3)],
  ['rho', R.rational(9, 2)],
  ['number of rows', R.rational(6)],
]);

const METRES: ReadonlyMap<string, R.Rational> = new Map([
  ['mm', R.rational(1, 1000)],
  ['cm', R.rational(1, 100)],
  ['in', R.rational(127, 5000)],
  ['µm', R.rational(1, 1000000)],
]);

function decimal(whole: number, places: string): string {
  return places === '' ? String(whole) : `${whole}.${places}`;
}

const places = fc.array(fc.constantFrom(...'0123456789'), { maxLength: 3 }).map(digits => digits.join(''));
/** No ten: `a × 10^2` is a power of ten, which has a rule of its own. */
const digits = fc
  .tuple(fc.nat(3000), places)
  .map(([whole, rest]) => decimal(whole === 10 ? 11 : whole, rest));

const plainNumber: fc.Arbitrary<Made> = digits.map(text => ({
  kind: 'number',
  text,
  value: R.rational(text),
}));

function named(names: ReadonlyMap<string, R.Rational>): fc.Arbitrary<Made> {
  return fc.constantFrom(...names).map(([text, value]) => ({ kind: 'name', text, value }));
}

const length: fc.Arbitrary<Made> = fc
  .tuple(digits, fc.constantFrom(...METRES))
  .map(([text, [unit, metres]]) => ({
    kind: 'length',
    digits: text,
    unit,
    value: R.multiply(R.rational(text), metres),
  }));

function sum(kind: 'add' | 'subtract', left: Made, right: Made): Made {
  const value = kind === 'add' ? R.add(left.value, right.value) : R.subtract(left.value, right.value);
  return { kind, left, right, value };
}

function product(kind: 'times' | 'beside', left: Made, right: Made): Made {
  return { kind, left, right, value: R.multiply(left.value, right.value) };
}

function quotient(left: Made, right: Made): Made {
  const value = R.divide(left.value, right.value);
  return value === null ? product('times', left, right) : { kind: 'over', left, right, value };
}

/** Over nought there is no length; one is put in its place. */
function lengthOver(left: Made, right: Made): Made {
  return R.isZero(right.value) ? product('times', left, right) : quotient(left, right);
}

const { number: numberFormula, length: lengthFormula } = fc.letrec<{ number: Made; length: Made }>(tie => ({
  number: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    plainNumber,
    named(NUMBER_NAMES),
    fc
      .tuple(fc.constantFrom('add', 'subtract'), tie('number'), tie('number'))
      .map(([kind, a, b]) => sum(kind as 'add', a, b)),
    fc
      .tuple(fc.constantFrom('times', 'beside'), tie('number'), tie('number'))
      .map(([kind, a, b]) => product(kind as 'times', a, b)),
    fc.tuple(tie('number'), tie('number')).map(([a, b]) => quotient(a, b)),
    tie('number').map(of => ({ kind: 'minus', of, value: R.negate(of.value) }) as Made),
    tie('number').map(of => ({ kind: 'size', of, value: R.abs(of.value) }) as Made),
    tie('number').map(of => ({ kind: 'brackets', of, value: of.value }) as Made),
    fc.tuple(tie('number'), fc.integer({ min: 2, max: 3 })).map(([of, exponent]) => power(of, exponent)),
  ),
  length: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    length,
    named(LENGTH_NAMES),
    fc
      .tuple(fc.constantFrom('add', 'subtract'), tie('length'), tie('length'))
      .map(([kind, a, b]) => sum(kind as 'add', a, b)),
    fc
      .tuple(fc.constantFrom('times', 'beside'), tie('number'), tie('length'))
      .map(([kind, a, b]) => product(kind as 'times', a, b)),
    fc.tuple(tie('length'), tie('number')).map(([a, b]) => lengthOver(a, b)),
    tie('length').map(of => ({ kind: 'minus', of, value: R.negate(of.value) }) as Made),
    tie('length').map(of => ({ kind: 'size', of, value: R.abs(of.value) }) as Made),
    tie('length').map(of => ({ kind: 'brackets', of, value: of.value }) as Made),
  ),
}));

function power(of: Made, exponent: number): Made {
  return { kind: 'power', of, exponent, value: R.powerInteger(of.value, exponent) ?? R.ZERO };
}

/** A length: some name's, and a formula, so that no link has a unit and no name. */
export const lengthLink: fc.Arbitrary<Made> = fc
  .tuple(named(LENGTH_NAMES), lengthFormula)
  .map(([name, formula]) => sum('add', name, formula));

export const numberLink: fc.Arbitrary<Made> = numberFormula;

/** Chooses among spellings: an endless row of small numbers. */
export type Choose = <T>(options: readonly T[]) => T;

/** How strongly a piece holds together: a sum least, a single thing most. */
const STRENGTH = { add: 1, subtract: 1, times: 2, over: 2, minus: 3, beside: 4, power: 5 } as const;

function strength(made: Made): number {
  return made.kind in STRENGTH ? STRENGTH[made.kind as keyof typeof STRENGTH] : 6;
}

/** Writes a formula as people might, with as few brackets as its meaning allows, or some more. */
export function written(made: Made, choose: Choose): string {
  switch (made.kind) {
    case 'number':
      return numeral(made.text, choose);
    case 'name':
      return NAMES_IN_DRESS.has(made.text)
        ? choose([made.text, NAMES_IN_DRESS.get(made.text) as string])
        : made.text;
    case 'length':
      return (
        numeral(made.digits, choose) + choose(['', ' ', '\u00A0', '\\,']) + unitWritten(made.unit, choose)
      );
    case 'add':
      return within(made.left, 1, choose) + choose([' + ', '+ ', '  + ']) + within(made.right, 2, choose);
    case 'subtract':
      return (
        within(made.left, 1, choose) + choose([' - ', ' − ', ' – ', ' -']) + within(made.right, 2, choose)
      );
    case 'times':
      return (
        within(made.left, 2, choose) +
        choose([' × ', '×', ' * ', ' · ', ' \\times ', ' \\cdot ', ' ⋅ ']) +
        within(made.right, 3, choose)
      );
    case 'over':
      return over(made.left, made.right, choose);
    case 'minus':
      return choose(['-', '−', '- ']) + within(made.of, 4, choose);
    case 'beside':
      return beside(made.left, made.right, choose);
    case 'power':
      return (
        within(made.of, 6, choose) +
        choose([
          `^${made.exponent}`,
          ` ^ ${made.exponent}`,
          `^{${made.exponent}}`,
          '²³'[made.exponent - 2] as string,
        ])
      );
    case 'size':
      return choose([`|${written(made.of, choose)}|`, `abs(${written(made.of, choose)})`]);
    case 'brackets':
      return bracketed(made.of, choose);
  }
}

const NAMES_IN_DRESS: ReadonlyMap<string, string> = new Map([
  ['q_0', 'q_{0}'],
  ['lambda', 'λ'],
  ['rho', '\\rho '],
  ['LC', '\\text{LC}'],
  ['k', '\\mathrm{k}'],
  ['number of rows', '\\text{number of rows}'],
]);

function numeral(text: string, choose: Choose): string {
  const [whole = '', decimals] = text.split('.');
  const grouped =
    whole.length === 4 ? `${whole[0]}${choose(['', '\u202F', '\u2009'])}${whole.slice(1)}` : whole;
  const start = whole === '0' && decimals !== undefined ? choose(['0', '']) : grouped;
  return decimals === undefined ? grouped : `${start}.${decimals}`;
}

function unitWritten(unit: string, choose: Choose): string {
  return choose([unit, `\\text{${unit}}`, unit === 'µm' ? 'μm' : unit]);
}

function bracketed(made: Made, choose: Choose): string {
  const text = written(made, choose);
  return choose([`(${text})`, `( ${text} )`, `\\left(${text}\\right)`]);
}

function within(made: Made, least: number, choose: Choose): string {
  return strength(made) < least ? bracketed(made, choose) : written(made, choose);
}

/** `1/20 mm` is a twentieth of a millimetre: a divisor with a unit stands in brackets. So does a power after ten. */
function over(left: Made, right: Made, choose: Choose): string {
  const above = within(left, 2, choose);
  const isSafe =
    right.kind === 'name' || right.kind === 'number' || right.kind === 'size' || right.kind === 'brackets';
  const below = isSafe ? written(right, choose) : bracketed(right, choose);
  const fraction = `\\frac{${written(left, choose)}}{${written(right, choose)}}`;
  return choose([`${above}/${below}`, `${above} / ${below}`, `${above} ÷ ${below}`, `(${fraction})`]);
}

/** A number can only be the first of two factors side by side, and nothing with a unit can. */
function beside(left: Made, right: Made, choose: Choose): string {
  const first =
    left.kind === 'name' || left.kind === 'number' ? written(left, choose) : bracketed(left, choose);
  const isDecimal = left.kind === 'number' && left.text.includes('.');
  const second =
    right.kind === 'name' && !(left.kind === 'number' && false)
      ? written(right, choose)
      : bracketed(right, choose);
  const gap = right.kind === 'name' || isDecimal ? ' ' : choose(['', ' ']);
  return `${first}${gap}${second}`;
}
