import { findIn, statisticOf } from '../../language/names.ts';
import { findTerm } from '../../language/terms.ts';
import type { AskedBlock } from './asked-block.ts';
import { nameOffers } from './name-offers.ts';
import { type Offer, offer } from './offer.ts';

/** What may stand behind `TERM of`: a row, a block, and for a statistic a quantity. */
export function ofOffers(asked: AskedBlock, base: string): readonly Offer[] {
  const { naming, blocks, near } = asked;
  const term = findTerm(base);
  const isStatistic = term !== null && statisticOf(term) !== null;
  const labels = labelsOf(asked);
  return [
    ...labels.map((label, at) => offer('name', label, at / 1000, { detail: 'row of this block' })),
    ...blocks.map((name, at) => offer('block', name, 1 + at / 1000, { detail: 'block' })),
    ...near
      .check()
      .measurements.slice(0, near.fences.length)
      .flatMap(({ name, rows }, index) =>
        name === null || near.declared[index] === naming.here
          ? []
          : rows.flatMap(({ label }) =>
              label === null
                ? []
                : [offer('name', `${label} of ${name}`, 2 + index / 100, { detail: 'row of another block' })],
            ),
      ),
    ...(isStatistic ? nameOffers(asked, '').filter(({ label }) => label !== '?') : []),
  ];
}

/** The labels of the block's rows as typed, or of the block that it uses. */
function labelsOf({ measurement, naming }: AskedBlock): readonly string[] {
  const typed = measurement.rows.flatMap(({ label }) => label ?? []);
  if (typed.length > 0) return typed;
  return [
    ...(
      findIn(naming.here, naming.note, ({ labels }) => (labels.size > 0 ? labels : null)) ?? new Map()
    ).keys(),
  ];
}
