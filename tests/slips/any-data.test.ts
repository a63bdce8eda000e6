import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Expression } from '../../server/src/engine/expression.ts';
import type * as Q from '../../server/src/engine/quantity.ts';
import * as R from '../../server/src/engine/rational.ts';
import * as S from '../../server/src/engine/scalar.ts';
import { SLIPS } from '../../server/src/engine/slips/all.ts';
import type { SlipData, SlipName, SlipTerm } from '../../server/src/engine/slips/slip.ts';
import { parse, wordNames } from '../support/parse-expression.ts';
import { drawSeed } from '../support/seed.ts';
import { q } from './data.ts';

drawSeed('slips/any-data');

const NAMES: Record<SlipName, true> = {
  'zero-correction-left-out': true,
  'zero-correction-sign': true,
  'zero-correction-twice': true,
  'closed-division-as-read': true,
  'division-miscounted': true,
  'forward-rule': true,
  'division-over-n': true,
  'difference-not-least-count': true,
  'vernier-division-for-least-count': true,
  'mark-at-coincidence': true,
  'next-mark': true,
  'half-turn-missed': true,
  'circular-reading-times-pitch': true,
  'pitch-as-one-division': true,
  'unit-slip': true,
  'power-of-ten': true,
  'radius-for-diameter': true,
  'power-left-out': true,
  'errors-subtracted': true,
  'signed-deviations': true,
  'rows-left-out': true,
  'digits-swapped': true,
  'sign-slip': true,
  'rounded-twice': true,
  'cut-off': true,
  'rotation-miscounted': true,
  'full-circle-missed': true,
};

const TARGETS = [
  'observed reading',
  'corrected reading',
  'vernier scale reading',
  'zero error',
  'zero correction',
  'least count',
  'pitch',
  'mean',
  'mean corrected reading',
  'mean absolute error',
  'percentage error',
  'absolute error',
  'expanded uncertainty',
  'own',
  'count',
];
const TERMS: readonly SlipTerm[] = [
  'least count',
  'pitch',
  'main scale division',
  'vernier scale division',
  'linear scale division',
  'circular scale division',
  'main scale reading',
  'linear scale reading',
  'coinciding division',
  'circular scale reading',
  'initial circular reading',
  'final circular reading',
  'full rotations',
  'zero error',
  'zero correction',
  'observed reading',
];

const number = fc.oneof(
  fc.integer({ min: -60, max: 60 }).map(String),
  fc.tuple(fc.integer({ min: -99, max: 99 }), fc.integer({ min: 1, max: 60 })).map(([n, d]) => `${n}/${d}`),
);
const unit = fc.constantFrom('', 'mm', 'cm', 'in', 'deg', 'arcmin', 's', '%');
const plain: fc.Arbitrary<Q.Quantity> = fc
  .tuple(number, unit)
  .map(([text, word]) => q(`${text} ${word}`.trim()));
const value = fc.oneof(
  { weight: 6, arbitrary: plain },
  { weight: 1, arbitrary: plain.map(like => ({ ...like, scalar: S.letter('w', 'positive') })) },
  { weight: 1, arbitrary: plain.map(like => ({ ...like, scalar: S.multiply(like.scalar, S.PI) })) },
);
const place = fc.constantFrom(null, R.rational('0.01'), R.rational('0.00001'), R.rational(1, 60), R.ONE);
const count = fc.constantFrom(null, R.ZERO, R.TEN, R.rational(50), R.rational(-1, 2));
const formula = fc.constantFrom(
  ...[
    'pi D^3 / 6',
    'a + b',
    'sin(a) / r',
    'mod(a, b)',
    '2^D',
    'mean(a, b, D)',
    '1 / (a - a)',
    'unknown r',
  ].map(text => parse(text, { names: wordNames('D', 'a', 'b', 'r', 'unknown') }).expression as Expression),
);

const anyData: fc.Arbitrary<SlipData> = fc
  .record({
    target: fc.constantFrom(...TARGETS),
    truth: value,
    stated: value,
    place,
    terms: fc.array(fc.option(value), { minLength: TERMS.length, maxLength: TERMS.length }),
    count,
    vernier: fc.constantFrom('none', 'on main scale', 'on drum'),
    isScrew: fc.boolean(),
    runsBackward: fc.boolean(),
    closed: fc.option(
      fc.record({
        division: count,
        vernierDivision: fc.option(fc.constant(R.TWO)),
        side: fc.constantFrom('positive', 'negative', 'nearest'),
      }),
    ),
    values: fc.array(value, { maxLength: 15 }),
    formula: fc.option(formula),
    names: fc.record({ D: value, a: value, b: value, r: value }),
    errorTerms: fc.array(fc.record({ size: value, power: count, once: value }), { maxLength: 4 }),
    numbers: fc.array(value, { maxLength: 4 }),
    before: fc.option(fc.record({ value, place })),
  })
  .map(({ terms, names, ...data }) => ({
    ...(data as Omit<SlipData, 'value' | 'lookup' | 'errorOf'>),
    errorOf: null,
    value: term => terms[TERMS.indexOf(term)] ?? null,
    lookup: key => {
      const known = names[key as keyof typeof names];
      return known === undefined
        ? { ok: false, trouble: { kind: 'domain', what: key } }
        : { ok: true, quantity: known };
    },
  }));

describe('every slip', () => {
  it('is in the list once', () => {
    expect(SLIPS.map(slip => slip.name).sort()).toEqual(Object.keys(NAMES).sort());
  });

  it('takes whatever data there are, gives few values, and says each in one breath', () => {
    fc.assert(
      fc.property(anyData, data => {
        for (const slip of SLIPS) {
          const found = slip.values(data);
          expect(found.length, slip.name).toBeLessThanOrEqual(30);
          for (const each of found) {
            const because = each.because();
            expect(because, slip.name).toMatch(/^[\p{L}\d(-]/u);
            expect(because, slip.name).not.toMatch(/[.;,:]$|\n| {2}|undefined|null|NaN|\[object/);
          }
        }
      }),
      { numRuns: 600 },
    );
  });

  it.each(SLIPS.map(slip => [slip.name, slip] as const))('%s is told in full', (_, slip) => {
    expect(slip.summary).toMatch(/^\p{L}.*[^.]$/u);
    expect(slip.explanation).toMatch(/^[\p{L}\d].*[.?]$/u);
    expect(slip.explanation.split(/\s+/).length).toBeGreaterThan(20);
  });
});
