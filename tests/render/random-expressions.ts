import fc from 'fast-check';
import type { Expression } from '../../server/src/engine/expression.ts';
import * as Q from '../../server/src/engine/quantity.ts';
import * as R from '../../server/src/engine/rational.ts';
import { type Unit, unitShown, unitWord } from '../../server/src/engine/unit.ts';
import { joined, named, written } from '../../server/src/workings/step-parts.ts';

/** Names of lengths, some of which units are called as well, in metres. */
export const LENGTHS: ReadonlyMap<string, R.Rational> = new Map([
  ['D', R.rational(127, 5000)],
  ['m', R.rational(1, 7)],
  ['h', R.rational(3, 20)],
  ['LC', R.rational(1, 50000)],
  ['MSR', R.rational(-3, 1000)],
  ['lambda_1', R.rational(7, 11)],
  ['observed reading', R.rational(2484, 100000)],
  ['observed reading of dish', R.rational(31, 1000)],
]);

/** Names of plain numbers. */
export const NUMBERS: ReadonlyMap<string, R.Rational> = new Map([
  ['n', R.rational(17)],
  ['s', R.rational(5, 3)],
  ['N', R.rational(25)],
  ['rho', R.rational(9, 2)],
  ['t1', R.rational(-4)],
  ['wall thickness', R.rational(6)],
]);

const UNITS = ['mm', 'cm', 'in', 'µm'].map(word => unitWord(word) as Unit);

const decimal = fc
  .tuple(fc.nat(300), fc.constantFrom('', '.0', '.5', '.25', '.002'))
  .map(([whole, rest]) => `${whole}${rest}`);
/** Numbers as they are written, and what they are. */
const spelledNumber: fc.Arbitrary<readonly [string, R.Rational]> = fc.oneof(
  { weight: 6, arbitrary: decimal.map((text): [string, R.Rational] => [text, R.rational(text)]) },
  fc
    .tuple(decimal, fc.integer({ min: -4, max: 4 }))
    .map(([text, power]): [string, R.Rational] => [
      `${text} × 10^${power}`,
      R.multiply(R.rational(text), R.powerInteger(R.TEN, power)!),
    ]),
  fc
    .tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 2, max: 64 }))
    .map(([above, below]): [string, R.Rational] => [`${above}/${below}`, R.rational(above, below)]),
);

const plainLiteral = fc
  .tuple(fc.constantFrom('', '', '', '-', '+'), spelledNumber)
  .map(([sign, [text, value]]) => written(sign + text, Q.plain(sign === '-' ? R.negate(value) : value)));
const lengthLiteral = fc
  .tuple(fc.constantFrom('', '', '', '-', '+'), spelledNumber, fc.constantFrom(...UNITS))
  .map(([sign, [text, value], unit]) =>
    written(`${sign}${text} ${unitShown(unit)}`, Q.quantity(sign === '-' ? R.negate(value) : value, unit)),
  );

function nameOf(names: ReadonlyMap<string, R.Rational>): fc.Arbitrary<Expression> {
  return fc.constantFrom(...names.keys()).map(named);
}

type Both = 'add' | 'subtract' | 'multiply' | 'divide';

function call(
  name: Extract<Expression, { kind: 'call' }>['name'],
  ...values: readonly Expression[]
): Expression {
  return { kind: 'call', name, arguments: values };
}

const exponent = fc.constantFrom('2', '3', '-1').map(text => written(text, Q.plain(R.rational(text))));

export const { number: numberExpression, length: lengthExpression } = fc.letrec<{
  number: Expression;
  length: Expression;
}>(tie => ({
  number: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    plainLiteral,
    nameOf(NUMBERS),
    fc
      .tuple(fc.constantFrom<Both>('add', 'subtract', 'multiply', 'divide'), tie('number'), tie('number'))
      .map(([kind, left, right]) => joined(kind, left, right)),
    fc.tuple(tie('length'), tie('length')).map(([left, right]) => joined('divide', left, right)),
    tie('number').map((of): Expression => ({ kind: 'negate', of })),
    fc
      .tuple(tie('number'), exponent)
      .map(([base, raised]): Expression => ({ kind: 'power', base, exponent: raised })),
    tie('number').map(of => call('abs', of)),
  ),
  length: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    lengthLiteral,
    nameOf(LENGTHS),
    fc
      .tuple(fc.constantFrom<Both>('add', 'subtract'), tie('length'), tie('length'))
      .map(([kind, left, right]) => joined(kind, left, right)),
    fc.tuple(tie('number'), tie('length')).map(([left, right]) => joined('multiply', left, right)),
    fc
      .tuple(fc.constantFrom<Both>('multiply', 'divide'), tie('length'), tie('number'))
      .map(([kind, left, right]) => joined(kind, left, right)),
    fc
      .tuple(tie('number'), fc.constantFrom(...UNITS))
      .map(([of, unit]): Expression => ({ kind: 'measured', of, unit })),
    tie('length').map((of): Expression => ({ kind: 'negate', of })),
    tie('length').map(of => call('abs', of)),
    fc.array(tie('length'), { minLength: 1, maxLength: 3 }).map(values => call('mean', ...values)),
    fc.tuple(tie('length'), tie('length')).map(([left, right]) => call('mod', left, right)),
  ),
}));

const METRE = unitWord('m') as Unit;

/** What the names of random expressions are worth. */
export function worthOfName(key: string): Q.Outcome {
  const length = LENGTHS.get(key);
  if (length !== undefined) return { ok: true, quantity: Q.quantity(length, METRE) };
  const number = NUMBERS.get(key);
  return number === undefined
    ? { ok: false, trouble: { kind: 'domain', what: key } }
    : { ok: true, quantity: Q.plain(number) };
}
