import * as R from '../rational.ts';
import { combination, combined, type ErrorShare, errorShares } from './error-shares.ts';
import { exampleNote } from './example-note.ts';
import { gives } from './gives.ts';
import { inWords, numberWords } from './in-words.ts';
import type { Slip, SlipData } from './slip.ts';
import { type Maybe, same } from './sums.ts';

/** A relative error that was not multiplied by the power of its quantity. */
export const powerLeftOut: Slip = {
  name: 'power-left-out',
  summary: 'the power of a quantity was left out of its error',
  explanation:
    'In a product of powers each relative error counts as often as the power says: one per cent in a diameter is three per cent in a volume, since D³ is D times D times D, and half a per cent under a square root. That is why the quantity with the highest power is measured most carefully.',
  formula: 'Δm/m + ΔD/D, not Δm/m + 3 ΔD/D',
  example: exampleNote(
    'D: 7.88 mm ± 0.01 mm',
    'm: 2.01 g ± 0.01 g',
    'density rho = m / (pi D^3 / 6) = 7.85 g/cm^3',
    'percentage error of rho = 0.62 %',
    '#                         ^^^^^^ error wrong-value [power-left-out]',
  ),
  values(data) {
    const shares = errorShares(data);
    const powered = shares.filter(share => !same(share.size, share.once));
    if (powered.length === 0) return [];
    const without = (left: readonly ErrorShare[]): Maybe =>
      combined(
        data,
        shares.map(share => (left.includes(share) ? share.once : share.size)),
      );
    const because = (): string => whatCounts(data, shares);
    return [
      ...gives(without(powered), because),
      ...(powered.length > 1 ? powered.flatMap(share => gives(without([share]), because)) : []),
    ];
  },
};

function whatCounts(data: SlipData, shares: readonly ErrorShare[]): string {
  const parts = shares.map(({ size, power, once }) =>
    power === null || R.equals(power, R.ONE)
      ? inWords(data, size)
      : `${numberWords(power)} × ${inWords(data, once)}`,
  );
  const rule = 'each error counts as often as the power of its quantity says';
  return combination(data) === 'sum' ? `${rule}, ${parts.join(' + ')}` : rule;
}
