import * as S from '../engine/scalar.ts';
import { divisionValue } from '../engine/scales.ts';
import { type Answer, missing, REPORTED } from './answer.ts';
import type { Facts } from './facts.ts';
import { instrumentNamed } from './instruments.ts';

/**
 * Why a block without a fine scale is not read by its coarse one alone; null where it is.
 *
 * An instrument that has a fine scale needs it, and a line that may have been its record must be read first.
 */
export function whyNotBare(facts: Facts, what: string): Answer | null {
  const { instrument, scales, givens, own, unread, sentences } = facts.measurement;
  if (
    sentences.has('fine scale') ||
    unread.has('instrument') ||
    scales.some(({ scale }) => FINE_SCALES.test(scale))
  )
    return REPORTED;
  const needed = fineScaleOf(instrument ?? '');
  if (needed === null) {
    const said = [...own.keys()].find(name => FINE_WORDS.test(name)) ?? finerGiven(facts, what);
    return said === null
      ? null
      : missing(
          `nothing in this block determines the ${what}: the ${said} speaks of a fine scale, so record that and what was read on it (\`vernier scale: … VSD = … MSD\`, \`coinciding division: …\`)`,
        );
  }
  // Beside a least count that is given what is missing is the line that was read.
  const lacks = what === 'observed reading' && givens.has('least count') ? needed.line : needed.scale;
  return missing(
    `nothing in this block determines the ${what}: an instrument such as ${instrument} has a ${needed.scale.name}, so record the ${lacks.name} (${lacks.how})`,
  );
}

const FINE_SCALES = /^(?:vernier|circular)/;

/** Names of one's own that speak of a fine scale. */
const FINE_WORDS = /\b(?:vernier|coincid\w*|divisions?|circular scale|thimble)\b/i;

/** What is given that the coarse scale by itself does not show: a finer least count, a share of the vernier. */
function finerGiven(facts: Facts, what: string): string | null {
  const { givens } = facts.measurement;
  if (what !== 'observed reading') return null;
  if (givens.has('vernier scale reading')) return 'vernier scale reading';
  const least = givens.has('least count') ? facts.term('least count') : null;
  const { scales } = facts.scales();
  const coarse = divisionValue(scales, 'main') ?? divisionValue(scales, 'linear');
  if (coarse === null || least === null || !least.ok) return null;
  return S.compare(least.quantity.scalar, coarse) === -1 ? 'least count' : null;
}

interface FineScale {
  readonly scale: Needed;
  readonly line: Needed;
}

interface Needed {
  readonly name: string;
  readonly how: string;
}

const VERNIER: FineScale = {
  scale: { name: 'vernier scale', how: '`vernier scale: … VSD = … MSD`' },
  line: { name: 'coinciding division', how: '`coinciding division: …`' },
};
const CIRCULAR: FineScale = {
  scale: { name: 'circular scale', how: '`circular scale: … divisions`' },
  line: { name: 'circular scale reading', how: '`circular scale reading: …`' },
};

/** The fine scale that an instrument is read by; null for one that is not known. */
function fineScaleOf(instrument: string): FineScale | null {
  switch (instrumentNamed(instrument)?.scales) {
    case 'vernier':
    case 'angle vernier':
      return VERNIER;
    case 'screw':
    case 'screw with vernier':
    case 'dial':
      return CIRCULAR;
    case undefined:
      // A name that the trade's table does not have, or a misspelt one, may still say so.
      if (/digital/.test(instrument)) return null;
      if (/\bvernier\b/.test(instrument)) return VERNIER;
      return /\b(?:screw|micrometer)\b/.test(instrument) ? CIRCULAR : null;
  }
}
