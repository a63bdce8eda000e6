import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import * as R from '../../server/src/engine/rational.ts';
import * as S from '../../server/src/engine/scalar.ts';
import * as T from '../../server/src/engine/trigonometry.ts';

const number = (text: string): S.Scalar => S.real(R.rational(text));
const text = (a: S.Scalar | null): string | null => (a === null ? null : S.scalarText(a));
const over = (a: S.Scalar, n: number): S.Scalar => S.divide(a, S.real(R.rational(n)))!;

const FUNCTIONS = { ...T };

describe('angles', () => {
  // The angles that every table of sines begins with: common practice, no source.
  test.each([
    { name: 'sinDegrees', of: '30', is: '1/2' },
    { name: 'sinDegrees', of: '-90', is: '-1' },
    { name: 'cosDegrees', of: '60', is: '1/2' },
    { name: 'cosDegrees', of: '180', is: '-1' },
    { name: 'tanDegrees', of: '45', is: '1' },
    { name: 'tanDegrees', of: '90', is: null },
    { name: 'sinDegrees', of: '45', is: '0.707106781186548' },
    { name: 'arcsinDegrees', of: '1/2', is: '30' },
    { name: 'arcsinDegrees', of: '-1', is: '-90' },
    { name: 'arccosDegrees', of: '-1/2', is: '120' },
    { name: 'arccosDegrees', of: '0', is: '90' },
    { name: 'arctanDegrees', of: '-1', is: '-45' },
    { name: 'arcsinDegrees', of: '1.5', is: null },
    { name: 'sin', of: '0', is: '0' },
    { name: 'cos', of: '0', is: '1' },
    { name: 'sin', of: '1', is: '0.841470984807897' },
    { name: 'arctan', of: '1', is: '0.785398163397448' },
    { name: 'arccos', of: '1', is: '0' },
  ] as const)('$name of $of is $is', ({ name, of, is }) => {
    expect(text(FUNCTIONS[name](number(of)))).toBe(is);
  });

  test('sin 45° is the root of a half, and so are its square and its angle again', () => {
    const sine = T.sinDegrees(number('45'))!;
    expect(S.equals(sine, S.sqrt(number('1/2'))!)).toBe(true);
    expect(S.isExact(sine)).toBe(false);
    expect(S.equals(S.multiply(sine, sine), number('1/2'))).toBe(true);
    expect(S.equals(T.arcsinDegrees(sine)!, number('45'))).toBe(true);
  });

  test('parts of pi give what the degrees give, though not exactly', () => {
    expect(S.isZero(T.sin(S.PI)!)).toBe(true);
    expect(S.equals(T.sin(over(S.PI, 6))!, number('1/2'))).toBe(true);
    expect(S.isExact(T.sin(over(S.PI, 6))!)).toBe(false);
    expect(T.tan(over(S.PI, 2))).toBeNull();
    expect(S.equals(T.cos(over(S.PI, 3))!, number('1/2'))).toBe(true);
  });

  test('the square of sine and cosine make one, and the inverse leads back', () => {
    const degrees = fc.tuple(fc.bigInt(-89999n, 89999n), fc.bigInt(1n, 7n));
    fc.assert(
      fc.property(degrees, ([n, d]) => {
        const angle = S.real(R.rational(n, 1000n * d));
        const [sine, cosine, tangent] = [T.sinDegrees(angle)!, T.cosDegrees(angle)!, T.tanDegrees(angle)!];
        expect(S.equals(S.add(S.multiply(sine, sine), S.multiply(cosine, cosine)), S.UNITY)).toBe(true);
        expect(S.equals(S.divide(sine, cosine)!, tangent)).toBe(true);
        expect(S.equals(T.arctanDegrees(tangent)!, angle)).toBe(true);
        const radians = over(S.multiply(angle, S.PI), 180);
        expect(S.equals(T.sin(radians)!, sine)).toBe(true);
        expect(S.equals(T.arctan(tangent)!, radians)).toBe(true);
      }),
      { numRuns: 200 },
    );
  });

  test('a root that rounds a little above one is one', () => {
    const third = S.divide(S.UNITY, S.sqrt(number('3'))!)!;
    const almost = S.multiply(S.multiply(third, third), number('3'));
    const above = S.real(R.rational(10n ** 49n + 1n, 10n ** 49n), false);
    expect(S.equals(T.arcsinDegrees(almost)!, number('90'))).toBe(true);
    expect(S.equals(T.arcsinDegrees(above)!, number('90'))).toBe(true);
    expect(S.isZero(T.arccosDegrees(above)!)).toBe(true);
    expect(T.arcsinDegrees(S.real(R.rational(10n ** 49n + 1n, 10n ** 49n)))).toBeNull();
  });

  test('letters have no sine', () => {
    const w = S.letter('w', 'positive');
    for (const f of [T.sin, T.cos, T.tan, T.sinDegrees, T.arcsin, T.arctanDegrees]) expect(f(w)).toBeNull();
    expect(T.sin(S.TOO_LARGE)).toBeNull();
  });
});
