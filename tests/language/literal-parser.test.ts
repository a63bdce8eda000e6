import { describe, expect, test } from 'vitest';
import { BENCH_NAMES, literalValue, parse, tree } from '../support/parse-expression.ts';

// Source of the accepted forms: the language page, "Values" and "How people really type"; values worked out by hand.

const names = BENCH_NAMES;

describe('one value', () => {
  test.each([
    ['2.45 cm', '49/2000 cm, 1/10000'],
    ['12 mm', '3/250 mm, 1/1000'],
    ['.5 mm', '1/2000 mm, 1/10000'],
    ['0.5mm', '1/2000 mm, 1/10000'],
    ['2.50 cm', '1/40 cm, 1/10000'],
    ['-0.06 mm', '-3/50000 mm, 1/100000'],
    ['+0.06 mm', '3/50000 mm, 1/100000'],
    ['− 0.06 mm', '-3/50000 mm, 1/100000'],
    ['–0.06 mm', '-3/50000 mm, 1/100000'],
    ['1 195 635 kg', '1195635 kg, 1'],
    ['1/20 mm', '1/20000 mm, no place'],
    ['-1/20 mm', '-1/20000 mm, no place'],
    ['1/20', '1/20, no place'],
    ['2 3/8 in', '2413/40000 in, no place'],
    ['$2\\frac{3}{8}$ in', '2413/40000 in, no place'],
    ['$\\frac{1}{20}\\,\\text{mm}$', '1/20000 mm, no place'],
    ['(1/20) mm', '1/20000 mm, no place'],
    ['(2.45) cm', '49/2000 cm, 1/10000'],
    ['2.5e-3', '1/400, 1/10000'],
    ['2.5 × 10^-3 m', '1/400 m, 1/10000'],
    ['2.5 x 10^-3 m', '1/400 m, 1/10000'],
    ['2.5 × 10⁻³ m', '1/400 m, 1/10000'],
    ['$2.5 \\times 10^{-3}\\,\\mathrm{m}$', '1/400 m, 1/10000'],
    ['3 × 10^2 m', '300 m, 100'],
    ['10⁻² cm', '1/10000 cm, no place'],
    ['10^-2 cm', '1/10000 cm, no place'],
    ['5 cm3', '1/200000 cm^3, 1/1000000'],
    ['5 cm³', '1/200000 cm^3, 1/1000000'],
    ['3 cms', '3/100 cm, 1/100'],
    ['7.8 g/cm^3', '7800 g/cm^3, 100'],
    ['7.8 g/cm³', '7800 g/cm^3, 100'],
    ['7.8 g cm^-3', '7800 g/cm^3, 100'],
    ['9.8 m s⁻²', '49/5 m/s^2, 1/10'],
    ['9.8 m/s^2', '49/5 m/s^2, 1/10'],
    ['9.8 m/s/s', '49/5 m/s^2, 1/10'],
    ['$7.8\\,\\frac{\\text{g}}{\\text{cm}^3}$', '7800 g/cm^3, 100'],
    ['$9.8\\,\\frac{m}{s^2}$', '49/5 m/s^2, 1/10'],
    ['\\SI{2.45}{cm}', '49/2000 cm, 1/10000'],
    ['$2.45\\text{ cm}$', '49/2000 cm, 1/10000'],
    ['$20\\,^\\circ C$', '20 degC, 1'],
    ['4 N m', '4 N m, 1'],
    ['4 N·m', '4 N m, 1'],
    ['4 N × m', '4 N m, 1'],
    ['4.2 J/(kg K)', '21/5 J kg^-1 K^-1, 1/10'],
    ['1.1e-5 K^-1', '11/1000000 K^-1, 1/1000000'],
    ['5 µm', '1/200000 um, 1/1000000'],
    ['5 μm', '1/200000 um, 1/1000000'],
    ['$5\\,\\mu\\text{m}$', '1/200000 um, 1/1000000'],
    ['5 um', '1/200000 um, 1/1000000'],
    ['1.7e-8 Ω m', '17/1000000000 ohm m, 1/1000000000'],
    ['20 °C', '20 degC, 1'],
    ['20°C', '20 degC, 1'],
    ['20 ℃', '20 degC, 1'],
    ['$20^\\circ\\mathrm{C}$', '20 degC, 1'],
    ['1.4 %', '7/500 %, 1/1000'],
    ['2.5 [mm]', '1/400 mm, 1/10000'],
    ['2 V', '2 V, 1'],
    ['5 m', '5 m, 1'],
    ['24°', '24 deg, 1'],
    ['24.5 deg', '49/2 deg, 1/10'],
    ["4'", '1/15 arcmin, 1/60'],
    ['24° 31′ 20″', '2207/90 deg, 1/3600'],
    ['24° 31\' 20"', '2207/90 deg, 1/3600'],
    ["24° 31' 20''", '2207/90 deg, 1/3600'],
    ['-24° 31′', '-1471/60 deg, 1/60'],
    ['24 deg 31 min', '1471/60 deg, 1/60'],
    ['24 deg 31 min 20 sec', '2207/90 deg, 1/3600'],
    ['$24^\\circ\\,31^\\prime$', '1471/60 deg, 1/60'],
    ['24° 20″', '4321/180 deg, 1/3600'],
    ['31′ 20.5″', '3761/7200 arcmin, 1/36000'],
    ['5 min 20 s', '320 min, 1'],
    ['1 h 5 min 2.5 s', '7805/2 h, 1/10'],
    ['nil', '0, no place'],
    ['**2.45 cm**', '49/2000 cm, 1/10000'],
    ['2.45~cm', '49/2000 cm, 1/10000'],
    ['5 henry', '5 H, 1'],
  ])('%s', (text, expected) => {
    const parsed = parse(text, { names });
    expect(parsed.problems).toEqual([]);
    expect(literalValue(parsed.expression)).toBe(expected);
    expect(parsed.isValue).toBe(true);
    expect([...parsed.ambiguousWords]).toEqual([]);
  });
});

describe('a value with its error', () => {
  test.each([
    ['1.06 g ± 0.01 g', '53/50000 g, 1/100000', '1/100000 g, 1/100000'],
    ['1.06 g +/- 0.01 g', '53/50000 g, 1/100000', '1/100000 g, 1/100000'],
    ['3.58 ± 0.02 mm', '179/50000 mm, 1/100000', '1/50000 mm, 1/100000'],
    ['(3.58 ± 0.02) mm', '179/50000 mm, 1/100000', '1/50000 mm, 1/100000'],
    ['(3.58 ± 0.02) × 10^-3 m', '179/50000 m, 1/100000', '1/50000 m, 1/100000'],
    ['$(3.58 \\pm 0.02)\\,\\text{mm}$', '179/50000 mm, 1/100000', '1/50000 mm, 1/100000'],
    ['7.8 g/cm^3 ± 1.4 %', '7800 g/cm^3, 100', '7/500 %, 1/1000'],
    ['(24.5 ± 0.1)°', '49/2 deg, 1/10', '1/10 deg, 1/10'],
    ['24° 31′ ± 1′', '1471/60 deg, 1/60', '1/60 arcmin, 1/60'],
    ['5.2 ± 0.1', '26/5, 1/10', '1/10, 1/10'],
    ['5.2 ± 2 %', '26/5, 1/10', '1/50 %, 1/100'],
  ])('%s', (text, main, error) => {
    for (const mode of ['value', 'link'] as const) {
      const parsed = parse(text, { names, mode });
      expect(parsed.problems).toEqual([]);
      expect(literalValue(parsed.expression)).toBe(main);
      expect(literalValue(parsed.error)).toBe(error);
      expect(parsed.isValue).toBe(true);
    }
  });

  test('the error of a formula', () => {
    const parsed = parse('m / v ± 0.1 g/cm^3', { names });
    expect(tree(parsed.expression)).toBe('(m / v)');
    expect(literalValue(parsed.error)).toBe('100 g/cm^3, 100');
    expect(parsed.isValue).toBe(false);
  });

  test('an error without the unit that its value has is not left so', () => {
    const parsed = parse('1.06 g ± 0.01', { names });
    expect(parsed.problems.map(problem => problem.rule)).toEqual(['missing-unit']);
    expect(parsed.problems[0]?.fixes[0]).toMatchObject({ sure: true, edits: [{ newText: '0.01 g' }] });
    expect(parsed.problems[0]?.span).toEqual({ start: 9, end: 13 });
  });
});

test('a literal quotes its number and its unit as they are typed, the unit apart', () => {
  const quoted = [
    '0.5mm',
    '7.8 g/cm³',
    '24° 31′',
    '$2.5\\,\\frac{m}{s}$',
    '2.5 [mm]',
    '−0.06 mm',
    '5\\mu\\text{m}',
    '1.4%',
  ];
  expect(quoted.map(text => tree(parse(text, { names }).expression))).toEqual([
    '0.5 mm',
    '7.8 g/cm^3',
    '24° 31′',
    '2.5 m/s',
    '2.5 mm',
    '-0.06 mm',
    '5 µm',
    '1.4%',
  ]);
});
