import type { Derivation, Step } from '../../server/src/engine/derivation.ts';
import type { Expression } from '../../server/src/engine/expression.ts';
import * as Q from '../../server/src/engine/quantity.ts';
import * as R from '../../server/src/engine/rational.ts';
import * as S from '../../server/src/engine/scalar.ts';
import { type Unit, unitWord } from '../../server/src/engine/unit.ts';
import {
  about,
  claimStep,
  equal,
  joined,
  named,
  sideStep,
  written,
} from '../../server/src/workings/step-parts.ts';

export function value(text: string, unit: string): Expression {
  return written(`${text} ${unit}`, Q.quantity(R.rational(text), unitWord(unit) as Unit));
}

export function number(text: string): Expression {
  return written(text, Q.plain(R.rational(text)));
}

function call(name: Extract<Expression, { kind: 'call' }>['name'], ...values: Expression[]): Expression {
  return { kind: 'call', name, arguments: values };
}

function power(base: Expression, exponent: string): Expression {
  return { kind: 'power', base, exponent: number(exponent) };
}

const PI: Expression = { kind: 'pi' };

export const READING: Step = claimStep(named('observed reading'), [
  equal(joined('add', named('MSR'), joined('multiply', named('n'), named('LC')))),
  equal(joined('add', value('2.45', 'cm'), joined('multiply', number('17'), value('0.002', 'cm')))),
  equal(value('2.484', 'cm')),
]);

const ZERO: Step = claimStep(
  named('zero error'),
  [
    equal({
      kind: 'negate',
      of: joined('multiply', joined('subtract', number('50'), number('47')), value('0.01', 'mm')),
    }),
    equal(value('-0.03', 'mm')),
  ],
  'the zero of the drum stands above the line, so the error is negative: -0.03 mm < 0',
);

/** Derivations with every kind of step and of formula, made by hand. */
export const DERIVATIONS: readonly Derivation[] = [
  { title: 'Observed reading', steps: [READING] },
  { title: 'Zero error', steps: [ZERO] },
  {
    title: 'By the scales themselves',
    steps: [
      sideStep(
        joined('add', named('x'), joined('multiply', number('17'), named('V'))),
        [equal(joined('multiply', named('m'), named('S')))],
        'line 17 of the vernier stands in line with a mark',
      ),
      sideStep(joined('subtract', named('x'), named('S')), [equal({ kind: 'negate', of: named('V') })]),
      sideStep({ kind: 'negate', of: named('x') }, [equal(number('-2'))]),
    ],
  },
  {
    title: 'Density rho',
    steps: [
      claimStep(named('rho'), [
        equal(joined('divide', named('m'), named('v'))),
        equal(
          joined(
            'divide',
            joined('multiply', number('6'), named('m')),
            joined('multiply', PI, power(named('D'), '3')),
          ),
        ),
        about(
          written('7.80 g/cm^3', Q.plain(R.rational('7.8'))),
          written('0.11 g/cm^3', Q.plain(R.rational('0.11'))),
        ),
      ]),
      {
        kind: 'table',
        reason: 'each share is the size of its exponent times the relative error',
        header: ['factor', 'share | of it', ''],
        rows: [
          [named('m'), value('0.9', '%'), 'a record'],
          [power(named('D'), '3'), joined('multiply', number('3'), value('0.16', '%')), 'row *2*'],
          ['sum'],
        ],
      },
    ],
  },
  {
    title: 'g of the pendulum $_bank',
    steps: [
      sideStep(named('g'), [
        equal(
          joined(
            'divide',
            joined('multiply', joined('multiply', number('4'), power(PI, '2')), named('l')),
            power(named('t1'), '2'),
          ),
        ),
        about(written('9.77 m/s^2', Q.plain(R.rational('9.77')))),
      ]),
      sideStep(named('theta'), [
        equal(call('arcsin', joined('divide', named('a'), named('b')))),
        equal(
          call('abs', joined('subtract', call('sqrt', named('l')), call('mean', named('a'), named('b')))),
        ),
        equal(call('mod', value('7.26', 'mm'), value('0.5', 'mm'))),
        equal(joined('multiply', call('sin', named('theta')), power(call('cos', number('0.5')), '2'))),
        equal({
          kind: 'measured',
          of: joined('add', number('2.4'), number('0.06')),
          unit: unitWord('cm') as Unit,
        }),
        equal({
          kind: 'measured',
          of: written('3/7', Q.plain(R.rational(3, 7))),
          unit: unitWord('cm') as Unit,
        }),
        equal(written('w/(2k)', Q.plain(S.letter('w', 'positive')))),
        equal(written('24° 31′', Q.quantity(R.rational('24.5'), unitWord('°') as Unit))),
      ]),
    ],
  },
  {
    title: 'Why the other choices are wrong',
    steps: [
      { kind: 'remark', text: '2.484 cm is choice A: the zero correction is left out' },
      { kind: 'remark', text: '<!-- end working --> is choice B & C' },
      READING,
      { kind: 'remark', text: '1. this is no list' },
      { kind: 'table', reason: null, header: [], rows: [] },
    ],
  },
];
