import { expect, test } from 'vitest';
import * as R from '../../server/src/engine/rational.ts';
import { readResults, readValue } from './math-reader.ts';

// Written and read by hand.
test.each([
  ['2.45\\,\\text{cm}', '49/20', '1/100', 'cm'],
  ['-0.15\\,\\text{mm}', '-3/20', '1/100', 'mm'],
  ['+0.06\\,\\mu\\mathrm{m}', '3/50', '1/100', 'µm'],
  ['7.80\\,\\mathrm{g/cm^{3}}', '39/5', '1/100', 'g/cm^3'],
  ['9.81\\,\\mathrm{m\\,s^{-2}}', '981/100', '1/100', 'm s^-2'],
  ["24^\\circ\\,31'\\,20''", '2207/90', '1/3600', '°'],
  ["-4'", '-4', '1', '′'],
  ['12.5^\\circ', '25/2', '1/10', '°'],
  ['\\tfrac{3}{8}\\,\\text{in}', '3/8', 'none', 'in'],
  ['2\\tfrac{3}{8}\\,\\text{in}', '19/8', 'none', 'in'],
  ['2.5 \\times 10^{-3}\\,\\text{m}', '1/400', '1/10000', 'm'],
  ['10^{-3}\\,\\text{m}', '1/1000', 'none', 'm'],
  ['1.4\\,\\%', '7/5', '1/10', '%'],
  ['17', '17', '1', ''],
])('%s', (latex, value, place, unit) => {
  const read = readValue(latex);
  expect(
    read && [R.toFractionText(read.value), read.place && R.toFractionText(read.place), read.unit],
  ).toEqual([value, place === 'none' ? null : place, unit]);
});

test.each(['17 \\times 0.002\\,\\text{cm}', '\\frac{w}{2 k}', 'n', '2 \\times', ''])(
  '%s is no value',
  latex => {
    expect(readValue(latex)).toBeNull();
  },
);

test('the last links of displays, broken over lines or not', () => {
  const markdown = [
    '$$',
    '\\begin{aligned}',
    '\\text{mean of }T &= \\frac{a = b}{2} \\\\',
    '&\\approx 2.484\\,\\text{cm} \\pm 0.002\\,\\text{cm}',
    '\\end{aligned}',
    '$$',
    '',
    '$$',
    '\\rho = 7.80\\,\\mathrm{g/cm^{3}}',
    '$$',
  ].join('\n');
  expect(
    readResults(markdown).map(({ left, relation, value, error }) => [
      left,
      relation,
      value && R.toFractionText(value.value),
      error && R.toFractionText(error.value),
    ]),
  ).toEqual([
    ['mean of T', '≈', '621/250', '1/500'],
    ['rho', '=', '39/5', null],
  ]);
});
