import { describe, expect, test } from 'vitest';
import { evaluate } from '../../server/src/engine/evaluation.ts';
import type { Expression } from '../../server/src/engine/expression.ts';
import * as Q from '../../server/src/engine/quantity.ts';
import { ZERO } from '../../server/src/engine/rational.ts';
import { scalarText } from '../../server/src/engine/scalar.ts';
import { BENCH_NAMES, parse, tree } from '../support/parse-expression.ts';

// Source of the accepted forms: the language page, "Values" and "How people really type"; values worked out by hand.

const names = BENCH_NAMES;

describe("a link's only unit, standing last, measures all of its terms", () => {
  test.each([
    ['2.4 + 6 × 0.01 cm', '((2.4 + (6 × 0.01))) in cm', '123/5000'],
    ['0.5/50 mm', '((0.5 / 50)) in mm', '1/100000'],
    ['-(50 - 47) × 0.01 mm', '((-((50 - 47)) × 0.01)) in mm', '-3/100000'],
    ['(2.4 + 0.06) cm', '((2.4 + 0.06)) in cm', '123/5000'],
    ['|2.4 - 2.5| cm', '(abs((2.4 - 2.5))) in cm', '1/1000'],
    ['sqrt(4 + 5) cm', '(sqrt((4 + 5))) in cm', '3/100'],
    ['2^3 cm', '((2 ^ 3)) in cm', '2/25'],
    ['0.5 × 2 %', '((0.5 × 2)) in %', '1/100'],
    ['0.01/1 × 100 %', '(((0.01 / 1) × 100)) in %', '1/100'],
    ['2.4 + 0.06 ± 0.01 cm', '((2.4 + 0.06)) in cm', '123/5000'],
    ['2.4 cm + 6 × 0.01 cm', '(2.4 cm + (6 × 0.01 cm))', '123/5000'],
    ['6 × 0.01 cm + 2 × 0 cm', '((6 × 0.01 cm) + (2 × 0 cm))', '3/5000'],
  ])('%s', (text, expected, base) => {
    const parsed = parse(text, { names });
    expect(parsed.problems).toEqual([]);
    expect(parsed.hasUnit).toBe(true);
    expect(tree(parsed.expression)).toBe(expected);
    const outcome = evaluate(parsed.expression as Expression, () => ({
      ok: true,
      quantity: Q.plain(ZERO),
    }));
    expect(outcome.ok && scalarText(outcome.quantity.scalar)).toBe(base);
  });

  test('not in a formula with names, nor inside a function', () => {
    expect(tree(parse('a + 6 × 0.01 cm', { names }).expression)).toBe('(a + (6 × 0.01 cm))');
    expect(tree(parse('2 × sin 30°', { names }).expression)).toBe('(2 × sin(30°))');
  });
});
