import { describe, expect, test } from 'vitest';
import { BENCH_NAMES, parse, tree } from '../support/parse-expression.ts';

// Source of the accepted forms: the language page, "Values" and "How people really type"; values worked out by hand.

const names = BENCH_NAMES;

describe('formulas', () => {
  test.each([
    ['S - V', '(S - V)'],
    ['2.45 cm + 17 × 0.002 cm', '(2.45 cm + (17 × 0.002 cm))'],
    ['MSR + n × LC', '(MSR + (n × LC))'],
    ['MSR + n x LC', '(MSR + (n × LC))'],
    ['pitch / 50', '(pitch / 50)'],
    ['a - b - c', '((a - b) - c)'],
    ['a / b / c', '((a / b) / c)'],
    ['a / b × c', '((a / b) × c)'],
    ['a + b × c', '(a + (b × c))'],
    ['2k', '(2 × k)'],
    ['2k - 1', '((2 × k) - 1)'],
    ['(2k - 1)w/(2k)', '((((2 × k) - 1) × w) / (2 × k))'],
    ['w/(2k)', '(w / (2 × k))'],
    ['2(a + b)', '(2 × (a + b))'],
    ['(a)(b)', '(a × b)'],
    ['a b c', '((a × b) × c)'],
    ['pi D^3 / 6', '((π × (D ^ 3)) / 6)'],
    ['πD³/6', '((π × (D ^ 3)) / 6)'],
    ['$\\frac{\\pi D^3}{6}$', '((π × (D ^ 3)) / 6)'],
    ['$\\frac{1}{2} k v^2$', '((1/2 × k) × (v ^ 2))'],
    ['\\frac{l^2}{6h} + \\frac{h}{2}', '(((l ^ 2) / (6 × h)) + (h / 2))'],
    ['\\frac{1\\,\\text{mm}}{50}', '(1 mm / 50)'],
    ['2\\frac{D}{k}', '(2 × (D / k))'],
    ['r²', '(?r ^ 2)'],
    ['-2^2', '-((2 ^ 2))'],
    ['-a b', '-((a × b))'],
    ['2^3^2', '(2 ^ (3 ^ 2))'],
    ['2^-1', '(2 ^ -1)'],
    ['a^(1/2)', '(a ^ 1/2)'],
    ['a^1/2', '((a ^ 1) / 2)'],
    ['3 × -2', '(3 × -(2))'],
    ['a - -b', '(a - -(b))'],
    ['sqrt(a)', 'sqrt(a)'],
    ['√a', 'sqrt(a)'],
    ['√(a + b)', 'sqrt((a + b))'],
    ['$\\sqrt{a + b}$', 'sqrt((a + b))'],
    ['sin 30°', 'sin(30°)'],
    ['sin(theta)', 'sin(theta)'],
    ['sin θ cos θ', '(sin(theta) × cos(theta))'],
    ['sin θ / 2', '(sin(theta) / 2)'],
    ['sin^-1(0.5)', 'arcsin(0.5)'],
    ['sin⁻¹(0.5)', 'arcsin(0.5)'],
    ['$\\sin^{-1}(0.5)$', 'arcsin(0.5)'],
    ['arctan(a/b)', 'arctan((a / b))'],
    ['asin(0.5)', 'arcsin(0.5)'],
    ['tan²(theta)', '(tan(theta) ^ 2)'],
    ['abs(a - b)', 'abs((a - b))'],
    ['|a - b|', 'abs((a - b))'],
    ['2|a||b|', '((2 × abs(a)) × abs(b))'],
    ['|a| + |b|', '(abs(a) + abs(b))'],
    ['||a| - b|', 'abs((abs(a) - b))'],
    ['mean(2.4 cm, 2.5 cm)', 'mean(2.4 cm; 2.5 cm)'],
    ['mean(2,5)', 'mean(2; 5)'],
    ['mean(2.4,2.5)', 'mean(2.4; 2.5)'],
    ['mod(a, 0.5 mm)', 'mod(a; 0.5 mm)'],
    ['mean corrected reading / 2', '(mean corrected reading / 2)'],
    ['observed reading of dish - observed reading', '(observed reading of dish - observed reading)'],
    ['5 min reading', '(5 × min reading)'],
    ['μN', '(mu × N)'],
    ['24 MSD', '(24 × ?MSD)'],
    ['3 wrong words here', '(3 × ?wrong words here)'],
    ['1.06 g / 0.136 cm^3', '(1.06 g / 0.136 cm^3)'],
    ['n × 1/20 mm', '(n × 1/20 mm)'],
    ['2 cm × 3 cm', '(2 cm × 3 cm)'],
    ['(2 cm)^2', '(2 cm ^ 2)'],
    ['l^2 m', '((l ^ 2) × m)'],
    ['V / I', '(V / ?I)'],
    ['2 S - 3', '((2 × S) - 3)'],
  ])('%s', (text, expected) => {
    const parsed = parse(text, { names });
    expect(parsed.problems).toEqual([]);
    expect(tree(parsed.expression)).toBe(expected);
    expect(parsed.isValue).toBe(false);
  });
});

describe('places in the note', () => {
  test('every literal and name has its span', () => {
    const parsed = parse('2.45 cm + n × LC', { names, start: 100 });
    const spans = [...parsed.spans].map(([expression, span]) => [tree(expression), span.start, span.end]);
    expect(spans).toEqual([
      ['2.45 cm', 100, 107],
      ['n', 110, 111],
      ['LC', 114, 116],
    ]);
  });

  test('a literal reaches over its sign and its dress', () => {
    const parsed = parse('-2.45\\,\\text{cm}', { names });
    expect([...parsed.spans.values()]).toEqual([{ start: 0, end: 16 }]);
  });

  test('no tokens, no problem: the caller says what is missing', () => {
    expect(parse('', { names })).toMatchObject({ expression: null, problems: [], isValue: false });
  });
});
