import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { evaluate } from '../../server/src/engine/evaluation.ts';
import type { Expression } from '../../server/src/engine/expression.ts';
import * as Q from '../../server/src/engine/quantity.ts';
import * as R from '../../server/src/engine/rational.ts';
import { scalarText } from '../../server/src/engine/scalar.ts';
import { type Unit, unitWord } from '../../server/src/engine/unit.ts';
import { expressionText } from '../../server/src/render/expression-text.ts';
import { joined, named, written } from '../../server/src/workings/step-parts.ts';
import { parse, tree, wordNames } from '../support/parse-expression.ts';
import { drawSeed } from '../support/seed.ts';
import { LENGTHS, lengthExpression, NUMBERS, numberExpression, worthOfName } from './random-expressions.ts';

drawSeed('expression text');

const names = wordNames(...LENGTHS.keys(), ...NUMBERS.keys());

function worth(expression: Expression): string {
  const outcome = evaluate(expression, worthOfName);
  return outcome.ok ? scalarText(outcome.quantity.scalar) : outcome.trouble.kind;
}

// The second opinion is the project's own parser, which has tests of its own against a general library.
describe('what is written is read as what it was', () => {
  test.each([
    ['lengths', lengthExpression],
    ['numbers', numberExpression],
  ])('%s', (_kind, expressions) => {
    fc.assert(
      fc.property(expressions, expression => {
        const text = expressionText(expression);
        const parsed = parse(text, { names });
        expect(parsed.problems, text).toEqual([]);
        expect(parsed.expression === null ? 'nothing' : worth(parsed.expression), text).toBe(
          worth(expression),
        );
      }),
      { numRuns: 1500 },
    );
  });
});

const mm = unitWord('mm') as Unit;
const cm = unitWord('cm') as Unit;

function millimetres(text: string): Expression {
  return written(`${text} mm`, Q.quantity(R.rational(text), mm));
}

function centimetres(text: string): Expression {
  return written(`${text} cm`, Q.quantity(R.rational(text), cm));
}

function number(text: string): Expression {
  return written(text, Q.plain(R.rational(text)));
}

function power(base: Expression, exponent: Expression): Expression {
  return { kind: 'power', base, exponent };
}

const PI: Expression = { kind: 'pi' };
const [a, b, c] = ['a', 'b', 'c'].map(named) as [Expression, Expression, Expression];

// common practice, no source
describe('as the board has it', () => {
  test.each<[string, Expression]>([
    ['MSR + n × LC', joined('add', named('MSR'), joined('multiply', named('n'), named('LC')))],
    [
      '2.45 cm + 17 × 0.002 cm',
      joined('add', centimetres('2.45'), joined('multiply', number('17'), centimetres('0.002'))),
    ],
    ['pi D^3 / 6', joined('divide', joined('multiply', PI, power(named('D'), number('3'))), number('6'))],
    [
      '4 pi^2 l / t1^2',
      joined(
        'divide',
        joined('multiply', joined('multiply', number('4'), power(PI, number('2'))), named('l')),
        power(named('t1'), number('2')),
      ),
    ],
    ['m / (pi r^2)', joined('divide', named('m'), joined('multiply', PI, power(named('r'), number('2'))))],
    ['(a - b) / 2', joined('divide', joined('subtract', a, b), number('2'))],
    ['a - (b - c)', joined('subtract', a, joined('subtract', b, c))],
    ['a / (b × c)', joined('divide', a, joined('multiply', b, c))],
    ['a × (b / c)', joined('multiply', a, joined('divide', b, c))],
    ['24.70 mm - (-0.15 mm)', joined('subtract', millimetres('24.70'), millimetres('-0.15'))],
    ['24.70 mm + (-0.15 mm)', joined('add', millimetres('24.70'), millimetres('-0.15'))],
    [
      '-(50 - 47) × 0.01 mm',
      {
        kind: 'negate',
        of: joined('multiply', joined('subtract', number('50'), number('47')), millimetres('0.01')),
      },
    ],
    ['sqrt(l / g)', { kind: 'call', name: 'sqrt', arguments: [joined('divide', named('l'), named('g'))] }],
    ['|a - b|', { kind: 'call', name: 'abs', arguments: [joined('subtract', a, b)] }],
    [
      'mean(2.4 cm, 2.5 cm)',
      { kind: 'call', name: 'mean', arguments: [centimetres('2.4'), centimetres('2.5')] },
    ],
    [
      'mod(7.26 mm, 0.5 mm)',
      { kind: 'call', name: 'mod', arguments: [millimetres('7.26'), millimetres('0.5')] },
    ],
    ['(2.4 + 0.06) cm', { kind: 'measured', of: joined('add', number('2.4'), number('0.06')), unit: cm }],
    ['25 VSD', joined('multiply', number('25'), named('VSD'))],
    ['(2 cm) / m', joined('divide', centimetres('2'), named('m'))],
    ['6 / (2 mm)', joined('divide', number('6'), millimetres('2'))],
    ['D^-2', power(named('D'), number('-2'))],
  ])('%s', (text, expression) => {
    expect(expressionText(expression)).toBe(text);
  });

  test('the product without a sign is read as one factor', () => {
    const parsed = parse('pi D^3 / 6', { names });
    expect(tree(parsed.expression)).toBe('((π × (D ^ 3)) / 6)');
  });
});
