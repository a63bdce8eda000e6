import { expect, it } from 'vitest';
import { examineNote } from '../../server/src/checks/examine.ts';
import { rightValue } from '../../server/src/checks/right-value.ts';

/** The right value of what the last line asks for. */
function rightOf(...lines: readonly string[]): string | undefined {
  const note = examineNote(`\`\`\`measurement\n${lines.join('\n')}\n\`\`\`\n`)!;
  const facts = note.facts.block(0);
  const claim = facts.measurement.claims.at(-1)!;
  return rightValue(facts, claim.subject)?.text;
}

// Common practice, no source: an error has two figures, a result ends at the first figure of its error, one further where
// that is a 1 or a 2.
it.each<[string, readonly string[], string]>([
  [
    'an error with two figures',
    ['l: 99.8 cm ± 0.1 cm', 'T: 2.005 s ± 0.003 s', 'g = 4 pi^2 l / T^2', 'percentage error of g = ?'],
    '0.40 %',
  ],
  ['an exact error with the figures that it has', ['p: 8 cm ± 1 cm', 'percentage error of p = ?'], '12.5 %'],
  ['an exact error of one figure', ['p: 10 cm ± 1 cm', 'percentage error of p = ?'], '10 %'],
  [
    'a scatter with two figures',
    ['T: 2.63 s, 2.56 s, 2.42 s, 2.71 s, 2.80 s', 'mean absolute error of T = ?'],
    '0.11 s',
  ],
  ['a mean with one place more than its values', ['T: 2.63 s, 2.56 s, 2.42 s', 'mean of T = ?'], '2.537 s'],
  [
    'a mean that ends earlier with the places of its values',
    ['T: 2.01 s, 1.99 s', 'mean of T = ?'],
    '2.00 s',
  ],
  [
    'a result by its error, which begins with a 1',
    ['m: 1.06 g ± 0.01 g', 'v: 0.136 cm^3 ± 0.001 cm^3', 'rho = m / v = ?'],
    '7.79 g/cm^3',
  ],
  [
    'a result by its error, exact, with the places that its error leaves',
    ['l: 1.002 m ± 0.004 m', 'k: 3', 'w = l / k = ?'],
    '0.334 m',
  ],
  [
    // 5 % of 4700 and of 3300 are 235 + 165 = 400: the hundreds are the last that may be shown.
    'a whole number that ends in noughts nobody knows',
    ['R1: 4700 Ω ± 5 %', 'R2: 3300 Ω ± 5 %', 'R = R1 + R2 = ?'],
    '8.0 × 10^3 Ω',
  ],
  [
    // 0.05/2.5 = 2 % of 10104.3 is 202: a 2, so one place further than the hundreds.
    'a product with a power of ten',
    ['m: 2.5 kg', 'h: 412 m', 'g: 9.81 m/s^2 ± 0 m/s^2', 'W = m × g × h = ?'],
    '1.010 × 10^4 kg m^2/s^2',
  ],
  ['without any error four figures', ['a: 4 K', 'u = a / sqrt(3) = ?'], '2.309 K'],
  ['an exact one in full', ['a: 12345 mm', 'b = a / 8 = ?'], '1543.125 mm'],
  ['an arc in lengths', ['l: 172.5 mm', 'theta: 30 deg', 'a = l theta = ?'], '90.321 mm'],
  ['degrees Celsius behind a space', ['t: 20.1 °C', 'd = t / 3 = ?'], '6.70 °C'],
  [
    'a zero error with the places of the least count',
    [
      'main scale: 1 mm = 1 MSD',
      'vernier scale: 20 VSD = 19 MSD',
      'closed: vernier zero left, division 16',
      'zero error = ?',
    ],
    '-0.20 mm',
  ],
])('%s', (_, lines, wanted) => {
  expect(rightOf(...lines)).toBe(wanted);
});

it('a reading of whole degrees shows its minutes', () => {
  const note = examineNote(
    '```measurement\nmain scale: 1 MSD = 1°\nvernier scale: 60 VSD = 59 MSD\nMSR: 3°\nVC: 0\nobserved reading = ?\n```\n',
  )!;
  const facts = note.facts.block(0);
  expect(rightValue(facts, facts.measurement.claims[0]!.subject, null, true)?.text).toBe('3° 0′');
});
