import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Expression } from '../../server/src/engine/expression.ts';
import * as Q from '../../server/src/engine/quantity.ts';
import * as R from '../../server/src/engine/rational.ts';
import * as S from '../../server/src/engine/scalar.ts';
import { divideUnits, powerUnit, type Unit, unitShown, unitWord } from '../../server/src/engine/unit.ts';
import { UNIT_ENTRIES } from '../../server/src/engine/unit-table.ts';
import { expressionLatex } from '../../server/src/render/expression-latex.ts';
import { nameLatex } from '../../server/src/render/name-latex.ts';
import { valueLatex } from '../../server/src/render/value-latex.ts';
import { wordsLatex } from '../../server/src/render/words-latex.ts';
import { joined, named, written } from '../../server/src/workings/step-parts.ts';
import { drawSeed } from '../support/seed.ts';
import { lengthExpression, numberExpression } from './random-expressions.ts';
import { katexComplaint } from './strict-katex.ts';

drawSeed('expression latex');

function number(text: string): Expression {
  return written(text, Q.plain(R.rational(text)));
}

function value(text: string, unit: string): Expression {
  return written(`${text} ${unit}`, Q.quantity(R.rational(text), unitWord(unit) as Unit));
}

function power(base: Expression, exponent: Expression): Expression {
  return { kind: 'power', base, exponent };
}

const PI: Expression = { kind: 'pi' };

// common practice, no source
describe('as a textbook prints it', () => {
  test.each<[string, Expression]>([
    [
      '\\text{MSR} + n \\times \\text{LC}',
      joined('add', named('MSR'), joined('multiply', named('n'), named('LC'))),
    ],
    [
      '2.45\\,\\text{cm} + 17 \\times 0.002\\,\\text{cm}',
      joined('add', value('2.45', 'cm'), joined('multiply', number('17'), value('0.002', 'cm'))),
    ],
    ['x + 17 \\cdot V', joined('add', named('x'), joined('multiply', number('17'), named('V')))],
    [
      '\\frac{\\pi D^{3}}{6}',
      joined('divide', joined('multiply', PI, power(named('D'), number('3'))), number('6')),
    ],
    [
      '\\frac{4 \\pi^{2} l}{t_{1}^{2}}',
      joined(
        'divide',
        joined('multiply', joined('multiply', number('4'), power(PI, number('2'))), named('l')),
        power(named('t1'), number('2')),
      ),
    ],
    [
      '24.70\\,\\text{mm} - (-0.15\\,\\text{mm})',
      joined('subtract', value('24.70', 'mm'), value('-0.15', 'mm')),
    ],
    ['25\\,\\text{VSD}', joined('multiply', number('25'), named('VSD'))],
    [
      '(2.4 + 0.06)\\,\\text{cm}',
      {
        kind: 'measured',
        of: joined('add', number('2.4'), number('0.06')),
        unit: unitWord('cm') as Unit,
      },
    ],
    [
      '\\sqrt{\\frac{l}{g}}',
      { kind: 'call', name: 'sqrt', arguments: [joined('divide', named('l'), named('g'))] },
    ],
    ['\\left(\\frac{a}{b}\\right)^{2}', power(joined('divide', named('a'), named('b')), number('2'))],
    [
      '\\left\\lvert a - b\\right\\rvert',
      {
        kind: 'call',
        name: 'abs',
        arguments: [joined('subtract', named('a'), named('b'))],
      },
    ],
    [
      '-(50 - 47) \\times 0.01\\,\\text{mm}',
      {
        kind: 'negate',
        of: joined('multiply', joined('subtract', number('50'), number('47')), value('0.01', 'mm')),
      },
    ],
    ['\\rho \\cdot g', joined('multiply', named('rho'), named('g'))],
    ['\\sin\\theta', { kind: 'call', name: 'sin', arguments: [named('theta')] }],
  ])('%s', (latex, expression) => {
    expect(expressionLatex(expression).replace(/\\sin \\/, '\\sin\\')).toBe(latex);
    expect(katexComplaint(latex, false)).toBeNull();
  });
});

const degree = unitWord('°') as Unit;
const [k, w] = [S.letter('k', 'count'), S.letter('w', 'positive')];

test.each<[string, string, Q.Quantity]>([
  ['2.45 cm', '2.45\\,\\text{cm}', Q.quantity(R.rational('2.45'), unitWord('cm') as Unit)],
  ['+0.06 mm', '+0.06\\,\\text{mm}', Q.quantity(R.rational('0.06'), unitWord('mm') as Unit)],
  ['3 µm', '3\\,\\mu\\mathrm{m}', Q.quantity(R.rational(3), unitWord('µm') as Unit)],
  ['24° 31′ 20″', "24^\\circ\\,31'\\,20''", Q.quantity(R.rational(24), degree)],
  ['-4′', "-4'", Q.quantity(R.rational(-4, 60), degree)],
  ['12.5°', '12.5^\\circ', Q.quantity(R.rational('12.5'), degree)],
  ['20 °C', '20\\,{^\\circ}\\mathrm{C}', Q.quantity(R.rational(20), unitWord('°C') as Unit)],
  ['1.4 %', '1.4\\,\\%', Q.quantity(R.rational('1.4'), unitWord('%') as Unit)],
  ['3/8 in', '\\tfrac{3}{8}\\,\\text{in}', Q.quantity(R.rational(3, 8), unitWord('in') as Unit)],
  ['2 3/8 in', '2\\tfrac{3}{8}\\,\\text{in}', Q.quantity(R.rational(19, 8), unitWord('in') as Unit)],
  [
    '2.5 × 10^-3 m',
    '2.5 \\times 10^{-3}\\,\\text{m}',
    Q.quantity(R.rational('0.0025'), unitWord('m') as Unit),
  ],
  [
    '1.23e-12 m',
    '1.23 \\times 10^{-12}\\,\\text{m}',
    Q.quantity(R.rational('1.23e-12'), unitWord('m') as Unit),
  ],
  ['7.80 g/cm^3', '7.80\\,\\mathrm{g/cm^{3}}', Q.plain(R.rational('7.8'))],
  ['9.81 m s^-2', '9.81\\,\\mathrm{m\\,s^{-2}}', Q.plain(R.rational('9.81'))],
  ['w/(2k)', '\\frac{w}{2 k}', Q.plain(S.divide(w, S.multiply(S.real(R.rational(2)), k)) as S.Scalar)],
  ['(2k - 1)w/(2k)', '\\frac{\\left(2 k - 1\\right) w}{2 k}', Q.plain(S.multiply(w, k))],
])('%s', (text, latex, quantity) => {
  expect(valueLatex(text, quantity)).toBe(latex);
  expect(katexComplaint(latex, false)).toBeNull();
});

test.each([
  ['MSR', '\\text{MSR}'],
  ['LC', '\\text{LC}'],
  ['S', 'S'],
  ['rho', '\\rho'],
  ['t1', 't_{1}'],
  ['m_0', 'm_{0}'],
  ['D₁', 'D_{1}'],
  ['v_max', 'v_{\\text{max}}'],
  ['lambda_1', '\\lambda_{1}'],
  ['Tm', '\\mathit{Tm}'],
  ['observed reading', '\\text{observed reading}'],
  ['observed reading of dish', '\\text{observed reading of dish}'],
  ['mean of T', '\\text{mean of }T'],
  ['percentage error of rho', '\\text{percentage error of }\\rho'],
  ['D of bearing-ball', 'D\\text{ of bearing-ball}'],
  ['u(g)', 'u(g)'],
  [
    'percentage difference of g from 9.81 m/s^2',
    '\\text{percentage difference of }g\\text{ from }9.81\\,\\mathrm{m/s^{2}}',
  ],
  ['Δm', '\\Delta m'],
  ['Δrho', '\\Delta \\rho'],
  ['Δ(observed reading)', '\\Delta(\\text{observed reading})'],
  ['observed reading of row 2', '\\text{observed reading of row 2}'],
])('the name %s', (text, latex) => {
  expect(nameLatex(text)).toBe(latex);
  expect(katexComplaint(latex, false)).toBeNull();
});

describe('everything compiles in KaTeX at its strictest', () => {
  test('every unit, alone, prefixed and in compounds', () => {
    for (const { symbol, prefixes } of UNIT_ENTRIES) {
      const words = prefixes === 'none' ? [symbol] : [symbol, `k${symbol}`, `u${symbol}`];
      for (const unit of words.flatMap(word => unitWord(word) ?? [])) {
        const units = [
          unit,
          powerUnit(unit, R.rational(-2)),
          divideUnits(unit, powerUnit(unitWord('cm') as Unit, R.rational(3)) as Unit),
        ];
        for (const each of units.filter(one => one !== null)) {
          const text = `2.5 ${unitShown(each)}`;
          expect(
            katexComplaint(valueLatex(text, Q.quantity(R.rational('2.5'), each)), false),
            text,
          ).toBeNull();
        }
      }
    }
  });

  test('random formulas', () => {
    fc.assert(
      fc.property(fc.oneof(lengthExpression, numberExpression), expression => {
        const latex = expressionLatex(expression);
        expect(latex).not.toMatch(/[$|\n]/);
        expect(katexComplaint(latex, true)).toBeNull();
      }),
      { numRuns: 200 },
    );
  });

  test('every character of the first plane, and some beyond', () => {
    const codes = [
      ...Array.from({ length: 0xffff }, (_, code) => code + 1),
      0x1d437,
      0x1f600,
      0x20000,
      0xe0041,
    ];
    for (let from = 0; from < codes.length; from += 256) {
      const text = codes
        .slice(from, from + 256)
        .map(code => String.fromCodePoint(code))
        .join('');
      expect(katexComplaint(wordsLatex(text), false)).toBeNull();
    }
  });

  test('whatever a name or a text may hold', () => {
    const piece = fc.oneof(
      fc.constantFrom(
        '\\',
        '$',
        '$$',
        '%',
        '&',
        '#',
        '_',
        '{',
        '}',
        '~',
        '^',
        '`',
        '|',
        '<',
        '>',
        '*',
        '-->',
        '\n\n',
      ),
      fc.constantFrom(
        '°',
        '′',
        '″',
        '°′',
        '×',
        '−',
        'µ',
        'Ω',
        'ρ',
        '²',
        '½',
        'é',
        'ệ',
        'Ж',
        '角',
        'ע',
        '😀',
        '\u202e',
        '\u0000',
        '\ud800',
      ),
      fc.constantFrom('\\input{x}', '\\end{aligned}', 'of', ' of ', 'T', 'm_0', 'row 2', '^2', '_', "'"),
      fc.string({ unit: 'binary', maxLength: 4 }),
    );
    const text = fc.array(piece, { maxLength: 8 }).map(pieces => pieces.join(''));
    fc.assert(
      fc.property(text, hostile => {
        const literal = written(hostile, Q.plain(R.ONE));
        const formula = written(hostile, Q.plain(k));
        const measured = written(`2.5 ${hostile}`, Q.plain(R.ONE));
        const all = [named(hostile), literal, formula, measured];
        const latex = [
          wordsLatex(hostile),
          ...all.map(expressionLatex),
          ...all.map(each => expressionLatex(joined('divide', power(each, number('2')), each))),
          ...all.map(each => expressionLatex(joined('multiply', { kind: 'negate', of: each }, each))),
        ];
        for (const each of latex) expect(each).not.toMatch(/[$|\n<>`]/);
        expect(katexComplaint(latex.map(each => `{${each}}`).join(''), true)).toBeNull();
      }),
      { numRuns: 200 },
    );
  });
});
