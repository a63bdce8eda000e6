import { type Answer, missing, REPORTED } from './answer.ts';
import type { Facts } from './facts.ts';
import { instrumentNamed } from './instruments.ts';

/**
 * Why a block without a fine scale is not read by its coarse one alone; null where it is.
 *
 * An instrument that has a fine scale needs it, and a line that may have been its record must be read first.
 */
export function whyNotBare({ measurement }: Facts, what: string): Answer | null {
  const { instrument, scales, givens, unread, sentences } = measurement;
  const isFine = /^(?:vernier|circular)/;
  if (
    sentences.has('fine scale') ||
    unread.has('instrument') ||
    scales.some(({ scale }) => isFine.test(scale))
  )
    return REPORTED;
  const needed = fineScaleOf(instrument ?? '');
  if (needed === null) return null;
  // Beside a least count that is given what is missing is the line that was read.
  const lacks = what === 'observed reading' && givens.has('least count') ? needed.line : needed.scale;
  return missing(
    `nothing in this block determines the ${what}: an instrument such as ${instrument} has a ${needed.scale.name}, so record the ${lacks.name} (${lacks.how})`,
  );
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
      return null;
  }
}
