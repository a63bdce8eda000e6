import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import * as D from '../../server/src/engine/dimension.ts';

const powers = fc.array(fc.integer({ min: -4, max: 4 }), { minLength: 9, maxLength: 9 });
const of = (list: readonly number[]): D.Dimension =>
  D.dimension(Object.fromEntries(D.BASES.map((base, i) => [base, list[i]!])));

describe('kinds of quantities', () => {
  test('powers add up in products and fall in quotients', () => {
    fc.assert(
      fc.property(powers, powers, (p, q) => {
        const [a, b] = [of(p), of(q)];
        expect(D.sameDimension(D.combined(a, b, 1), of(p.map((n, i) => n + q[i]!)))).toBe(true);
        expect(D.sameDimension(D.combined(D.combined(a, b, 1), b, -1), a)).toBe(true);
        expect(D.sameDimension(a, b)).toBe(p.every((n, i) => n === q[i]));
        expect(D.isPlain(D.combined(a, a, -1))).toBe(true);
        expect(D.sameDimension(D.raised(D.raised(a, 2)!, 0.5)!, a)).toBe(true);
      }),
      { numRuns: 300 },
    );
  });

  test('a root leaves whole or half powers, or nothing', () => {
    expect(D.raised(D.dimension({ length: 1 }), 0.5)?.length).toBe(0.5);
    expect(D.raised(D.dimension({ length: 3 }), 1 / 3)?.length).toBe(1);
    expect(D.raised(D.dimension({ length: 1 }), 1 / 3)).toBeNull();
    expect(D.raised(D.dimension({ length: 1 }), 1e9)).toBeNull();
    expect(D.raised(D.dimension({ length: 1 }), Number.NaN)).toBeNull();
  });

  test.each([
    [{}, 'a plain number'],
    [{ length: 1 }, 'a length'],
    [{ angle: 1 }, 'an angle'],
    [{ mass: 1, length: -3 }, 'a density'],
    [{ celsius: 1 }, 'a temperature in degrees Celsius'],
    [{ length: 2, time: -1 }, 'length^2·time^-1'],
    [{ length: 0.5 }, 'length^0.5'],
  ])('%j is %s', (kind, text) => {
    expect(D.dimensionText(D.dimension(kind))).toBe(text);
  });

  test('no two kinds share their name, and no name its kind', () => {
    const texts = D.NAMED_DIMENSIONS.map(entry => entry.text);
    expect(new Set(texts).size).toBe(texts.length);
    for (const entry of D.NAMED_DIMENSIONS) expect(D.dimensionText(entry.dimension)).toBe(entry.text);
  });
});
