import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { combined, dimension, sameDimension } from '../../server/src/engine/dimension.ts';
import * as R from '../../server/src/engine/rational.ts';
import { roundsTo } from '../../server/src/engine/rounds-to.ts';
import * as U from '../../server/src/engine/unit.ts';

const unit = (word: string): U.Unit => U.unitWord(word)!;
const WORDS = ['mm', 'cm', 'm', 'in', 'g', 'kg', 's', 'min', 'N', 'Pa', 'deg', 'arcmin', '%', 'K', 'V'];
const anyUnit = fc.constantFrom(...WORDS).map(unit);
const compound = fc
  .array(fc.tuple(anyUnit, fc.integer({ min: -3, max: 3 })), { minLength: 1, maxLength: 4 })
  .map(list =>
    list.reduce(
      (product, [u, n]) => U.multiplyUnits(product, U.powerUnit(u, R.rational(n))!),
      U.DIMENSIONLESS,
    ),
  );

describe('one word', () => {
  test.each([
    ['mm', 'mm', 'mm', '1/1000'],
    ['cms', 'cm', 'cm', '1/100'],
    ['µm', 'um', 'µm', '1/1000000'],
    ['μm', 'um', 'µm', '1/1000000'],
    ['um', 'um', 'µm', '1/1000000'],
    ['microns', 'um', 'µm', '1/1000000'],
    ['nm', 'nm', 'nm', '1/1000000000'],
    ['Millimetres', 'mm', 'mm', '1/1000'],
    ['centimeter', 'cm', 'cm', '1/100'],
    ['INCHES', 'in', 'in', '127/5000'],
    ['°', 'deg', '°', '1'],
    ['degrees', 'deg', '°', '1'],
    ['′', 'arcmin', '′', '1/60'],
    ["'", 'arcmin', '′', '1/60'],
    ['″', 'arcsec', '″', '1/3600'],
    ["''", 'arcsec', '″', '1/3600'],
    ['Ω', 'ohm', 'Ω', '1'],
    ['\u2126', 'ohm', 'Ω', '1'],
    ['kΩ', 'kohm', 'kΩ', '1000'],
    ['k\u2126', 'kohm', 'kΩ', '1000'],
    ['\u212B', 'angstrom', 'Å', '1/10000000000'],
    ['ohms', 'ohm', 'Ω', '1'],
    ['°C', 'degC', '°C', '1'],
    ['kgs', 'kg', 'kg', '1'],
    ['gm', 'g', 'g', '1/1000'],
    ['gms', 'g', 'g', '1/1000'],
    ['grams', 'g', 'g', '1/1000'],
    ['sec', 's', 's', '1'],
    ['ms', 'ms', 'ms', '1/1000'],
    ['minutes', 'min', 'min', '60'],
    ['hPa', 'hPa', 'hPa', '100'],
    ['mbar', 'mbar', 'mbar', '100'],
    ['mL', 'mL', 'mL', '1/1000000'],
    ['ml', 'mL', 'mL', '1/1000000'],
    ['cc', 'cm^3', 'cm^3', '1/1000000'],
    ['%', '%', '%', '1/100'],
    ['mS', 'mS', 'mS', '1/1000'],
  ])('%s is %s', (word, text, shown, factor) => {
    const found = unit(word);
    expect([U.unitText(found), U.unitShown(found), R.toFractionText(found.factor)]).toEqual([
      text,
      shown,
      factor,
    ]);
  });

  test.each(['S', 'l', 'MSD', 'MM', 'CM', 'Cm', 'kin', 'cA', 'mmin', '', ' mm', 'mm ', 'm²'])(
    '%j is no unit',
    word => {
      expect(U.unitWord(word)).toBeNull();
    },
  );

  test('words that JavaScript’s own objects know are no units', () => {
    for (const word of ['__proto__', 'constructor', 'toString', 'hasOwnProperty', 'valueOf']) {
      expect(U.unitWord(word)).toBeNull();
    }
    fc.assert(
      fc.property(fc.string({ maxLength: 12 }), word => {
        const found = U.unitWord(word);
        if (found !== null) expect(R.sign(found.factor)).toBe(1);
      }),
      { numRuns: 1000 },
    );
    expect(U.unitWord('milli'.repeat(100_000))).toBeNull();
  });

  test('what programs get reads as the same unit', () => {
    for (const word of [...WORDS, 'µm', 'kΩ', 'Å', '°C', '″', 'rad', 'mmHg', 'TeV', 'dyne']) {
      expect(U.unitWord(U.unitText(unit(word)))).toEqual(unit(word));
    }
  });
});

describe('angles', () => {
  test.each([
    // NIST SP 811 (2008), appendix B.8: from memory.
    ['arcmin', '2.908882e-4'],
    ['arcsec', '4.848137e-6'],
    ['deg', '1.745329e-2'],
  ])('one %s is %s rad', (word, radians) => {
    const inRadians = R.divide(unit(word).factor, unit('rad').factor)!;
    expect(
      roundsTo(
        inRadians,
        R.rational(radians),
        R.rational(`1e-${word === 'arcsec' ? 12 : word === 'arcmin' ? 10 : 8}`),
      ),
    ).toBe(true);
  });

  test('a radian is not exact, whatever stands with it', () => {
    expect(unit('rad').exact).toBe(false);
    expect(unit('mrad').exact).toBe(false);
    expect(U.divideUnits(unit('rad'), unit('s')).exact).toBe(false);
    expect(U.divideUnits(unit('deg'), unit('s')).exact).toBe(true);
  });
});

describe('compound units', () => {
  test('the factor and the kind of a product are those of its parts', () => {
    fc.assert(
      fc.property(compound, compound, (a, b) => {
        const [product, quotient] = [U.multiplyUnits(a, b), U.divideUnits(a, b)];
        expect(R.equals(product.factor, R.multiply(a.factor, b.factor))).toBe(true);
        expect(R.equals(quotient.factor, R.divide(a.factor, b.factor)!)).toBe(true);
        expect(sameDimension(product.dimension, combined(a.dimension, b.dimension, 1))).toBe(true);
        expect(sameDimension(quotient.dimension, combined(a.dimension, b.dimension, -1))).toBe(true);
        const square = U.powerUnit(a, R.TWO)!;
        expect(R.equals(square.factor, R.multiply(a.factor, a.factor))).toBe(true);
        expect(U.powerUnit(square, R.HALF)).toEqual(a);
      }),
      { numRuns: 300 },
    );
  });

  test.each([
    [() => U.divideUnits(unit('g'), U.powerUnit(unit('cm'), R.rational(3))!), 'g/cm^3', '1000'],
    [() => U.multiplyUnits(unit('N'), unit('m')), 'N m', '1'],
    [() => U.powerUnit(unit('K'), R.rational(-1))!, 'K^-1', '1'],
    [() => U.multiplyUnits(unit('cm'), unit('cm')), 'cm^2', '1/10000'],
    [() => U.multiplyUnits(unit('mm'), unit('cm')), 'mm cm', '1/100000'],
    [() => U.divideUnits(U.divideUnits(unit('J'), unit('kg')), unit('K')), 'J kg^-1 K^-1', '1'],
    [() => U.divideUnits(unit('cm'), unit('cm')), '', '1'],
    [() => U.divideUnits(unit('µm'), unit('°C')), 'um/degC', '1/1000000'],
    [() => U.powerUnit(unit('m'), R.HALF)!, 'm^(1/2)', '1'],
  ])('spelling %#: %s', (make, text, factor) => {
    expect(U.unitText(make())).toBe(text);
    expect(R.toFractionText(make().factor)).toBe(factor);
  });

  test('a unit has no third power of its root, and no hundredth of a power', () => {
    expect(U.powerUnit(unit('m'), R.rational(1, 3))).toBeNull();
    expect(U.powerUnit(unit('m'), R.rational(10n ** 30n))).toBeNull();
    expect(U.powerUnit(unit('%'), R.rational(1, 100))).toBeNull();
  });

  test('units of one kind come together where a product is shown', () => {
    expect(U.unitText(U.jointUnit(unit('cm'), unit('mm'), 1))).toBe('cm^2');
    expect(U.unitText(U.jointUnit(unit('g'), unit('kg'), -1))).toBe('');
    expect(U.unitText(U.jointUnit(unit('cm'), unit('%'), 1))).toBe('cm');
    expect(U.unitText(U.withoutAngles(U.jointUnit(unit('cm'), unit('deg'), 1)))).toBe('cm');
  });

  test.each([
    [{ length: 1 }, 'm'],
    [{ mass: 1, length: -3 }, 'kg/m^3'],
    [{ mass: 1, length: 1, time: -2 }, 'N'],
    [{ mass: 1, length: -1, time: -2 }, 'Pa'],
    [{ angle: 1 }, 'deg'],
    [{ celsius: -1 }, 'degC^-1'],
    [{}, ''],
  ])('a plain unit for %j is %s', (kind, text) => {
    const likely = U.likelyBaseUnits(dimension(kind));
    expect(U.unitText(likely)).toBe(text);
    expect(sameDimension(likely.dimension, dimension(kind))).toBe(true);
    expect(R.equals(likely.factor, R.ONE)).toBe(true);
  });
});
