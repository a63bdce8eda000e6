import { expect, test } from 'vitest';
import { claimLine } from '../../server/src/render/derivation-lines.ts';
import { derivationText } from '../../server/src/render/derivation-text.ts';
import { sentence } from '../../server/src/render/plain-words.ts';
import { about, claimStep, equal, joined, named, sideStep } from '../../server/src/workings/step-parts.ts';
import { DERIVATIONS, number, READING, value } from './bench-derivations.ts';

test('a step as a claim', () => {
  expect(claimLine(READING)).toBe('observed reading = MSR + n × LC = 2.45 cm + 17 × 0.002 cm = 2.484 cm');
  expect(claimLine(claimStep(named('D'), [about(value('3.58', 'mm'), value('0.02', 'mm'))]))).toBe(
    'D ≈ 3.58 mm ± 0.02 mm',
  );
  expect(
    claimLine(claimStep(joined('multiply', number('10'), named('VSD')), [equal(value('9', 'mm'))])),
  ).toBe('10 VSD = 9 mm');
});

test('what no block can claim is no line', () => {
  expect(claimLine(sideStep(named('x'), [equal(number('2'))]))).toBeNull();
  expect(claimLine({ kind: 'remark', text: 'choice A leaves the zero correction out' })).toBeNull();
  expect(claimLine(claimStep(named('x'), []))).toBeNull();
});

test('a short chain stays on one line, a long one is broken before its signs', () => {
  const sum = Array.from({ length: 8 }, () => value('2.484', 'cm')).reduce((a, b) => joined('add', a, b));
  const text = derivationText([
    { title: 'Observed reading', steps: [READING] },
    {
      title: 'Mean',
      steps: [
        claimStep(
          named('mean observed reading'),
          [equal(joined('divide', sum, number('8'))), equal(value('2.484', 'cm'))],
          'the mean is the sum of all eight readings, divided by their number, and since no reading stands out from the others none is left out',
        ),
      ],
    },
  ]);
  expect(text).toMatchInlineSnapshot(`
    "Observed reading
      observed reading = MSR + n × LC = 2.45 cm + 17 × 0.002 cm = 2.484 cm

    Mean
      The mean is the sum of all eight readings, divided by their number, and since no reading stands
      out from the others none is left out.
      mean observed reading = (2.484 cm + 2.484 cm + 2.484 cm + 2.484 cm + 2.484 cm + 2.484 cm + 2.484 cm + 2.484 cm) / 8
                            = 2.484 cm"
  `);
});

test('tables stand in columns', () => {
  const density = DERIVATIONS.filter(({ title }) => title === 'Density rho');
  expect(derivationText(density)).toMatchInlineSnapshot(`
    "Density rho
      rho = m / v = 6 × m / (pi D^3) ≈ 7.80 g/cm^3 ± 0.11 g/cm^3
      Each share is the size of its exponent times the relative error.
      factor  share | of it
      m       0.9 %          a record
      D^3     3 × 0.16 %     row *2*
      sum"
  `);
});

test('no line is longer than a terminal, none holds what could trick it', () => {
  const text = derivationText([
    ...DERIVATIONS,
    { title: 'a\u001b[31m\nb\u202e', steps: [{ kind: 'remark', text: 'c\u0007\u2066' }] },
  ]);
  expect(text).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u202a-\u202e\u2066-\u2069]/);
  for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(100);
});

test.each([
  ['the error is negative', 'The error is negative.'],
  ['n lines are counted', 'n lines are counted.'],
  ['rho is the density', 'rho is the density.'],
  ['x_0 lies below', 'x_0 lies below.'],
  ['is it so?', 'Is it so?'],
  ['2.484 cm is choice A', '2.484 cm is choice A.'],
  ['étalon', 'Étalon.'],
])('%s, as a sentence', (reason, right) => {
  expect(sentence(reason)).toBe(right);
});
