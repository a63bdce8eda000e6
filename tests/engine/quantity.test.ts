import fc from 'fast-check';
import { all, create } from 'mathjs';
import { describe, expect, test } from 'vitest';
import { dimensionText } from '../../server/src/engine/dimension.ts';
import * as Q from '../../server/src/engine/quantity.ts';
import * as R from '../../server/src/engine/rational.ts';
import * as S from '../../server/src/engine/scalar.ts';
import * as U from '../../server/src/engine/unit.ts';

const math = create(all!, {});
const unit = (word: string): U.Unit => U.unitWord(word)!;
const of = (number: string, word: string): Q.Quantity => Q.quantity(R.rational(number), unit(word));
const value = (outcome: Q.Outcome): Q.Quantity => {
  if (!outcome.ok) throw new Error(`trouble: ${outcome.trouble.kind}`);
  return outcome.quantity;
};
const trouble = (outcome: Q.Outcome): string => (outcome.ok ? 'none' : outcome.trouble.kind);
const shown = (q: Q.Quantity, places: number): string => Q.shownDecimal(q, q.unit ?? U.DIMENSIONLESS, places);

const decimal = fc
  .tuple(fc.bigInt(-99999n, 99999n), fc.integer({ min: 0, max: 3 }))
  .map(([n, places]) => R.rational(n, 10n ** BigInt(places)));
const lengthWord = fc.constantFrom('mm', 'cm', 'm', 'in', 'um', 'ft');

describe('values with units', () => {
  test.each([
    // NIST SP 811 (2008), 7.9: 11.8 standard atmospheres, from memory; its factor is 101 325 Pa.
    ['11.8', 'atm', 'Pa', 0, '1195635 Pa'],
    // Abramowitz & Stegun, AMS 55, table 2.5: one inch is 0.0254 m exactly.
    ['1', 'in', 'm', 4, '0.0254 m'],
    ['2.484', 'cm', 'mm', 2, '24.84 mm'],
    ['90', 'arcmin', 'deg', 1, '1.5°'],
    ['0.5', 'rad', 'rad', 30, `0.5${'0'.repeat(29)} rad`],
    ['1', 'rad', 'deg', 4, '57.2958°'],
    ['7', 'arcsec', 'arcsec', 0, '7″'],
    ['3', 'µm', 'µm', 1, '3.0 µm'],
  ])('%s %s in %s to %i places is %s', (number, from, to, places, text) => {
    expect(Q.shownDecimal(of(number, from), unit(to), places)).toBe(text);
  });

  test('conversions agree with another library', () => {
    const words = ['mm', 'cm', 'm', 'km', 'in', 'ft', 'um', 'nm'];
    for (const from of words) {
      for (const to of words) {
        const ours = S.realValue(Q.inUnit(of('7.25', from), unit(to))!)!;
        expect(R.toNumber(ours) / math.unit(7.25, from).toNumber(to)).toBeCloseTo(1, 12);
      }
    }
  });

  test('there and back is exactly the same, sums in any unit are one sum', () => {
    fc.assert(
      fc.property(decimal, decimal, lengthWord, lengthWord, (a, b, from, to) => {
        const [x, y] = [Q.quantity(a, unit(from)), Q.quantity(b, unit(to))];
        expect(S.realValue(Q.inUnit(x, unit(from))!)).toEqual(a);
        const sum = value(Q.add(x, y));
        expect(Q.equals(sum, value(Q.add(y, x)))).toBe(true);
        expect(sum.unit?.symbol).toBe(unit(from).symbol);
        expect(Q.equals(value(Q.subtract(sum, y)), x)).toBe(true);
        const product = value(Q.multiply(x, y));
        expect(Q.equals(product, value(Q.multiply(y, x)))).toBe(true);
        expect(dimensionText(product.dimension)).toBe('an area');
        expect(U.unitText(product.unit!)).toBe(`${unit(from).symbol}^2`);
        if (R.isZero(b)) expect(trouble(Q.divide(product, y))).toBe('zero-division');
        else expect(Q.equals(value(Q.divide(product, y)), x)).toBe(true);
      }),
      { numRuns: 300 },
    );
  });

  test('a density: 1.06 g over the volume of a ball of 6.38 mm', () => {
    const diameter = of('6.38', 'mm');
    const volume = value(
      Q.divide(value(Q.multiply(Q.PI, value(Q.power(diameter, R.rational(3))))), Q.plain(R.rational(6))),
    );
    const cubicCentimetre = U.powerUnit(unit('cm'), R.rational(3))!;
    expect(Q.shownDecimal(volume, cubicCentimetre, 3)).toBe('0.136 cm^3');
    expect(S.isExact(volume.scalar)).toBe(false);
    const density = value(Q.divide(of('1.06', 'g'), volume));
    expect(Q.shownDecimal(density, U.divideUnits(unit('g'), cubicCentimetre), 2)).toBe('7.80 g/cm^3');
    expect(density.unit?.symbol).toBe('g/mm^3');
    expect(dimensionText(density.dimension)).toBe('a density');
  });

  test('a plain number leaves the unit as it is', () => {
    const seventeen = Q.plain(R.rational(17));
    expect(shown(value(Q.multiply(seventeen, of('0.02', 'mm'))), 2)).toBe('0.34 mm');
    expect(shown(value(Q.divide(of('0.5', 'mm'), Q.plain(R.rational(50)))), 2)).toBe('0.01 mm');
    expect(shown(value(Q.multiply(of('50', '%'), of('2', 'cm'))), 0)).toBe('1 cm');
    expect(value(Q.divide(of('1', 'cm'), of('1', 'mm'))).unit).toBeNull();
    expect(shown(value(Q.divide(Q.plain(R.ONE), of('4', 's'))), 2)).toBe('0.25 s^-1');
    expect(shown(value(Q.add(of('24', 'deg'), of('31', 'arcmin'))), 3)).toBe('24.517°');
  });

  test('what cannot be added, compared or turned is said', () => {
    const added = Q.add(of('1', 'cm'), of('1', 'deg'));
    expect(added).toMatchObject({
      ok: false,
      trouble: { kind: 'mismatch', left: { length: 1 }, right: { angle: 1 } },
    });
    expect(trouble(Q.subtract(of('20', 'degC'), of('20', 'K')))).toBe('mismatch');
    expect(trouble(Q.mod(of('1', 'cm'), Q.plain(R.ZERO)))).toBe('mismatch');
    expect(trouble(Q.mod(of('1', 'cm'), of('0', 'mm')))).toBe('zero-division');
    expect(trouble(Q.divide(of('1', 'cm'), Q.plain(R.ZERO)))).toBe('zero-division');
    expect(trouble(Q.sqrt(of('-4', 'cm')))).toBe('domain');
    expect(trouble(Q.power(of('2', 'cm'), R.rational(1, 3)))).toBe('domain');
    expect(trouble(Q.power(Q.plain(R.ZERO), R.rational(-1)))).toBe('domain');
    expect(trouble(Q.sin(of('1', 'cm')))).toBe('domain');
    expect(trouble(Q.tan(of('90', 'deg')))).toBe('domain');
    expect(trouble(Q.arcsin(Q.plain(R.TWO)))).toBe('domain');
    expect(trouble(Q.arctan(of('1', 'cm')))).toBe('domain');
    expect(trouble(Q.power(of('1e60', 'km'), R.rational(100)))).toBe('too-large');
    expect(trouble(Q.power(Q.plain(R.TWO), R.rational(10n ** 30n)))).toBe('too-large');
    expect(Q.compare(of('1', 'cm'), of('1', 'deg'))).toBeUndefined();
    expect(Q.equals(of('0', 'cm'), of('0', 'deg'))).toBe(false);
    expect(Q.inUnit(of('1', 'cm'), unit('deg'))).toBeNull();
    expect(Q.withUnit(of('1', 'cm'), unit('deg')).unit?.symbol).toBe('cm');
    expect(shown(Q.withUnit(of('1', 'cm'), unit('mm')), 0)).toBe('10 mm');
  });

  test('roots and powers keep their kind', () => {
    const area = value(Q.multiply(of('3', 'cm'), of('12', 'cm')));
    expect(shown(value(Q.sqrt(area)), 0)).toBe('6 cm');
    expect(shown(value(Q.power(of('8', 'mm'), R.rational(-1))), 3)).toBe('0.125 mm^-1');
    const period = value(
      Q.sqrt(
        value(Q.divide(of('1', 'm'), value(Q.divide(of('9.8', 'm'), value(Q.power(of('1', 's'), R.TWO)))))),
      ),
    );
    expect(dimensionText(period.dimension)).toBe('a time');
    expect(shown(Q.withUnit(period, unit('s')), 3)).toBe('0.319 s');
  });

  test('angles and plain numbers as radians', () => {
    expect(S.scalarText(value(Q.sin(of('30', 'deg'))).scalar)).toBe('1/2');
    expect(S.scalarText(value(Q.sin(of('1800', 'arcmin'))).scalar)).toBe('1/2');
    expect(S.scalarText(value(Q.cos(Q.plain(R.ZERO))).scalar)).toBe('1');
    expect(S.scalarText(value(Q.sin(Q.plain(R.ONE))).scalar)).toBe('0.841470984807897');
    expect(
      S.scalarText(value(Q.tan(Q.quantity(S.divide(S.PI, S.real(R.rational(4)))!, unit('rad')))).scalar),
    ).toBe('1.00000000000000');
    expect(shown(value(Q.arccos(Q.plain(R.HALF))), 0)).toBe('60°');
    expect(shown(value(Q.mod(of('400', 'deg'), of('360', 'deg'))), 0)).toBe('40°');
  });

  test('an arc is radius times angle', () => {
    const arc = Q.angleFree(value(Q.multiply(of('10', 'cm'), of('90', 'deg'))));
    expect(dimensionText(arc.dimension)).toBe('a length');
    expect(shown(arc, 4)).toBe('15.7080 cm');
    expect(Q.angleFree(of('1', 'cm'))).toEqual(of('1', 'cm'));
    const bare = Q.angleFree(of('180', 'deg'));
    expect(S.equals(bare.scalar, S.PI)).toBe(true);
    expect(bare.unit).toBeNull();
  });

  test('letters keep their unit and show as they are', () => {
    const w = Q.quantity(S.letter('w', 'positive'), unit('m'));
    const k = Q.plain(S.letter('k', 'count'));
    const part = value(Q.divide(w, value(Q.multiply(Q.plain(R.TWO), k))));
    expect(shown(part, 3)).toBe('w/(2k) m');
    expect(trouble(Q.abs(value(Q.subtract(k, Q.plain(R.TWO)))))).toBe('domain');
    expect(trouble(Q.sin(k))).toBe('domain');
    expect(shown(value(Q.abs(Q.negate(part))), 0)).toBe('w/(2k) m');
    expect(Q.plainNumber(k)).toBeNull();
    expect(Q.plainNumber(of('1', 'cm'))).toBeNull();
    expect(Q.plainNumber(of('50', '%'))).toEqual(R.HALF);
  });
});
