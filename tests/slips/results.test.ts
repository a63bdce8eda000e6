import { describe, expect, it } from 'vitest';
import type { Expression } from '../../server/src/engine/expression.ts';
import * as R from '../../server/src/engine/rational.ts';
import * as S from '../../server/src/engine/scalar.ts';
import { cutOff } from '../../server/src/engine/slips/cut-off.ts';
import { digitsSwapped } from '../../server/src/engine/slips/digits-swapped.ts';
import { errorsSubtracted } from '../../server/src/engine/slips/errors-subtracted.ts';
import { powerLeftOut } from '../../server/src/engine/slips/power-left-out.ts';
import { powerOfTen } from '../../server/src/engine/slips/power-of-ten.ts';
import { radiusForDiameter } from '../../server/src/engine/slips/radius-for-diameter.ts';
import { roundedTwice } from '../../server/src/engine/slips/rounded-twice.ts';
import { rowsLeftOut } from '../../server/src/engine/slips/rows-left-out.ts';
import { signSlip } from '../../server/src/engine/slips/sign-slip.ts';
import { signedDeviations } from '../../server/src/engine/slips/signed-deviations.ts';
import { unitSlip } from '../../server/src/engine/slips/unit-slip.ts';
import { parse, wordNames } from '../support/parse-expression.ts';
import { numbersOf, placeOf, q, sentencesOf, slipData } from './data.ts';

// Source of the wrong values: each slip's own rule, worked out by hand; common practice, no source.

const NAMES = wordNames('D', 'd', 'r', 'l', 'T', 'a', 'b', 'x');

function formula(text: string): Expression {
  const { expression } = parse(text, { names: NAMES });
  if (expression === null) throw new Error(`cannot be read: ${text}`);
  return expression;
}

describe('radius for diameter', () => {
  const tried = (text: string, names: Readonly<Record<string, string>>) =>
    numbersOf(radiusForDiameter, slipData({ target: 'own', truth: '1 mm', formula: formula(text), names }))
      .length;

  it('is tried for what is called a diameter or a radius, or goes with a square or a cube beside π', () => {
    expect(tried('2 r', { r: '3 mm' })).toBe(2);
    expect(tried('pi D', { D: '3 mm' })).toBe(2);
    expect(tried('pi x^2', { x: '3 mm' })).toBe(2);
    expect(tried('pi (D^2 - d^2) / 4', { D: '5 mm', d: '3 mm' })).toBe(4);
  });

  it('is not tried for the length of a pendulum, or for what is no length', () => {
    expect(tried('4 pi^2 l / T^2', { l: '99.8 cm', T: '2 s' })).toBe(0);
    expect(tried('pi r^2', { r: '3 s' })).toBe(0);
    expect(tried('a b', { a: '3 mm', b: '2 mm' })).toBe(0);
  });
});

describe('errors', () => {
  const shares = (...terms: readonly (readonly [string, number | null])[]) =>
    terms.map(([text, by]) => {
      const size = q(text);
      const power = by === null ? null : R.rational(by);
      const once = power === null ? size : { ...size, scalar: S.divide(size.scalar, S.real(R.abs(power)))! };
      return { size, power, once };
    });

  it('with a power left out, all of them or each', () => {
    const data = slipData({
      target: 'percentage error',
      truth: '13 %',
      errorTerms: shares(['6 mm', 3], ['4 mm', -2], ['3 mm', 1]),
    });
    expect(numbersOf(powerLeftOut, data, '%')).toEqual(['7', '9', '11']);
    expect(sentencesOf(powerLeftOut, data)).toEqual([
      'each error counts as often as the power of its quantity says, 3 × 2 % + 2 × 2 % + 3 %',
    ]);
  });

  it('of squares: 2 × sqrt(9 + 16) becomes 2 × sqrt(1 + 16)', () => {
    const data = slipData({
      target: 'expanded uncertainty',
      truth: '10 mm',
      errorTerms: shares(['3 mm', 3], ['4 mm', 1]),
    });
    const [value] = powerLeftOut.values(data);
    const squared = S.realValue(S.multiply(value!.value.scalar, value!.value.scalar));
    expect(S.near(squared!, R.rational('0.000068'))).toBe(true);
    expect(numbersOf(errorsSubtracted, data)).toEqual([]);
  });

  it('without powers have none to leave out', () => {
    const data = slipData({
      target: 'absolute error',
      truth: '7 mm',
      errorTerms: shares(['5 mm', null], ['2 mm', 1]),
    });
    expect(numbersOf(powerLeftOut, data)).toEqual([]);
  });

  it('subtracted: one of two, one of three, all but the first', () => {
    const two = slipData({
      target: 'absolute error',
      truth: '7 mm',
      errorTerms: shares(['5 mm', 1], ['2 mm', 1]),
    });
    expect(new Set(numbersOf(errorsSubtracted, two, 'mm'))).toEqual(new Set(['3']));
    const three = slipData({
      target: 'absolute error',
      truth: '10 mm',
      errorTerms: shares(['6 mm', 1], ['3 mm', 1], ['1 mm', 1]),
    });
    expect(new Set(numbersOf(errorsSubtracted, three, 'mm'))).toEqual(new Set(['2', '4', '8']));
    const negative = slipData({
      target: 'absolute error',
      truth: '7 mm',
      stated: '-3 mm',
      errorTerms: two.errorTerms,
    });
    expect(new Set(numbersOf(errorsSubtracted, negative, 'mm'))).toEqual(new Set(['-3']));
  });
});

describe('repeated values', () => {
  const values = ['0.42 cm', '0.44 cm', '0.38 cm'].map(q);

  it('with one left out, or divided by a wrong number', () => {
    const data = slipData({ target: 'mean', truth: '31/75 cm', values });
    expect(numbersOf(rowsLeftOut, data, 'cm')).toEqual(['0.43', '0.4', '0.41', '0.62', '0.31']);
    expect(sentencesOf(rowsLeftOut, data)[0]).toBe(
      'the 3rd value, 0.38 cm, is missing from it; a mean takes all 3',
    );
  });

  it('only cut off are no matter of a row', () => {
    const data = slipData({ target: 'mean', truth: '31/75 cm', stated: '0.41 cm', values });
    expect(numbersOf(rowsLeftOut, data)).toEqual([]);
  });

  it('in great number: only the last and the first are looked for', () => {
    const many = Array.from({ length: 20_000 }, (_, index) => q(`${index % 7} s`));
    expect(rowsLeftOut.values(slipData({ target: 'mean', truth: '3 s', values: many }))).toHaveLength(4);
  });

  it('with their deviations as they are make nought', () => {
    const data = slipData({ target: 'mean absolute error', truth: '0.02 cm', values });
    expect(numbersOf(signedDeviations, data, 'cm')).toEqual(['0']);
    expect(
      numbersOf(signedDeviations, slipData({ target: 'standard deviation', truth: '0.03 cm', values })),
    ).toEqual([]);
  });
});

describe('units', () => {
  it('mixed in a formula: each value in the units of the others', () => {
    const data = slipData({
      target: 'own',
      truth: '1.2 cm',
      stated: '3 cm',
      formula: formula('a + b'),
      names: { a: '1 cm', b: '2 mm' },
    });
    expect(numbersOf(unitSlip, data, 'cm')).toEqual(expect.arrayContaining(['0.3', '3']));
    expect(sentencesOf(unitSlip, data)).toContain(
      'b is 2 mm, but was put in as 2 cm; bring all values into one system of units first',
    );
  });

  it('of one kind only cannot be mixed', () => {
    const data = slipData({
      target: 'own',
      truth: '3 in',
      stated: '4 in',
      formula: formula('a + b'),
      names: { a: '1 in', b: '2 in' },
    });
    expect(numbersOf(unitSlip, data)).toEqual([]);
  });

  it('as a whole: the number of the millimetres with centimetres behind it, not the other way round', () => {
    expect(
      numbersOf(unitSlip, slipData({ target: 'least count', truth: '0.1 mm', stated: '0.1 cm' }), 'cm'),
    ).toEqual(['0.1']);
    expect(numbersOf(unitSlip, slipData({ target: 'pitch', truth: '0.5 mm', stated: '0.05 mm' }))).toEqual(
      [],
    );
  });

  it('are no reason for a sum with more places than are stated', () => {
    const reading = (stated: string) =>
      slipData({
        target: 'observed reading',
        truth: '4.268 cm',
        stated,
        vernier: 'on main scale',
        terms: {
          'observed reading': '4.268 cm',
          'main scale reading': '4.25 cm',
          'coinciding division': '18',
          'least count': '0.001 cm',
        },
      });
    expect(numbersOf(unitSlip, reading('4.43 cm'), 'cm')).toEqual(['4.43', '42.68']);
    expect(numbersOf(unitSlip, reading('4.2518 cm'), 'cm')).toEqual(
      expect.arrayContaining(['4.43', '4.2518']),
    );
  });
});

describe('slips of the pen', () => {
  const own = (truth: string, stated: string) => slipData({ target: 'own', truth, stated });

  it('swap neighbouring digits, also across the point, but do not shift the point', () => {
    expect(numbersOf(digitsSwapped, own('14.25 mm', '1.00 mm'), 'mm')).toEqual(['41.25', '12.45', '14.52']);
    expect(numbersOf(digitsSwapped, own('0.31 mm', '1.00 mm'), 'mm')).toEqual(['3.01', '0.13']);
    expect(numbersOf(digitsSwapped, own('0.5 mm', '0.05 mm'), 'mm')).toEqual([]);
    expect(numbersOf(digitsSwapped, own('-3.58', '1.00'))).toEqual(['-5.38', '-3.85']);
  });

  it('swap the digits of degrees and minutes apart', () => {
    const data = { ...own('3574/60 deg', '1 deg'), place: R.rational(1, 60) };
    expect(numbersOf(digitsSwapped, data, 'arcmin')).toEqual([`${95 * 60 + 34}`, `${59 * 60 + 43}`]);
  });

  it('swap nothing in a time of minutes and seconds', () => {
    const data = { ...own('320 s', '5 min'), place: R.ONE };
    expect(numbersOf(digitsSwapped, data)).toEqual([]);
  });

  it('round twice: from the link before, or from one place more', () => {
    expect(numbersOf(roundedTwice, own('0.345', '0.4'))).toEqual(['0.4']);
    expect(numbersOf(roundedTwice, own('-0.345', '-0.4'))).toEqual(['-0.4']);
    const linked = { ...own('2.0446', '2.1'), before: { value: q('2.05'), place: placeOf('2.05') } };
    expect(numbersOf(roundedTwice, linked)).toEqual(['2']);
    const threeSteps = { ...own('3.4446', '3.5'), before: { value: q('3.445'), place: placeOf('3.445') } };
    expect(numbersOf(roundedTwice, threeSteps)).toEqual(['3.4', '3.4']);
  });

  it('cut toward nought', () => {
    expect(numbersOf(cutOff, own('1.079', '1.07'))).toEqual(['1.07']);
    expect(numbersOf(cutOff, own('-1.079', '-1.07'))).toEqual(['-1.07']);
    expect(numbersOf(cutOff, slipData({ target: 'own', truth: '1.079' }))).toEqual([]);
  });

  it('move the point up to three places, but not that of nought', () => {
    expect(numbersOf(powerOfTen, own('2.5', '25'))).toEqual(['25', '250', '2500']);
    expect(numbersOf(powerOfTen, own('2.5', '25.0000'))).toEqual([
      '25',
      '0.25',
      '250',
      '0.025',
      '2500',
      '0.0025',
    ]);
    expect(numbersOf(powerOfTen, own('0.02', '0.0'))).toEqual([]);
  });

  it('change a sign, but not that of nought', () => {
    expect(numbersOf(signSlip, own('-0.15 mm', '0.15 mm'), 'mm')).toEqual(['0.15']);
    expect(numbersOf(signSlip, own('0 mm', '1 mm'))).toEqual([]);
  });
});
