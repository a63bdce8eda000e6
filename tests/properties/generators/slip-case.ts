import { type Draw, whole } from './draw.ts';
import {
  atPlaces,
  decimalText,
  type Fraction,
  fraction,
  isSame,
  negative,
  over,
  placesOf,
  size,
} from './fraction.ts';
import { inUnit, type Unit } from './measure.ts';

/** A block with one wrong link, made by a known slip, and every other slip that gives the same number there. */
export interface SlipCase {
  readonly lines: readonly string[];
  /** The wrong link as it stands in the block. */
  readonly link: string;
  /** The slip that was made; null where the number is wrong for no reason. */
  readonly slip: string | null;
  readonly stated: Fraction;
  readonly right: Fraction;
  /** What other slips give on the same data, by the tests' own arithmetic. */
  readonly others: readonly (readonly [slip: string, value: Fraction])[];
  /** Decimals that the claim states, in the unit it is written in; what other slips give is compared at these. */
  readonly places?: number;
  readonly unit?: Unit;
}

/** The slips that explain the stated number: the one that was made, and all that come to the same. */
export function explanations(one: SlipCase): Set<string | null> {
  const same = one.others
    .filter(([, value]) => isSame(rounded(one, value), one.stated))
    .map(([slip]) => slip);
  return new Set([one.slip, ...same, ...slipsOfWriting(one)]);
}

function rounded(one: SlipCase, value: Fraction): Fraction {
  if (one.places === undefined) return value;
  return atPlaces(one.unit ? inUnit(value, one.unit) : value, one.places);
}

/** Slips of the pen, which need no knowledge of the instrument. */
function slipsOfWriting(one: SlipCase): string[] {
  const right = rounded(one, one.right);
  const slips: string[] = [];
  if (isSame(one.stated, negative(right))) slips.push('sign-slip');
  if (right.top !== 0n && one.stated.top !== 0n) {
    const ratio = size(over(one.stated, right));
    if (isPowerOf(ratio, 10n)) slips.push('power-of-ten', 'unit-slip');
    if (isPowerOf(ratio, 60n)) slips.push('unit-slip');
  }
  if (isSwap(asWritten(one, one.stated), asWritten(one, right))) slips.push('digits-swapped');
  return slips;
}

/** The number in the unit of the claim: exact claims are kept in the base unit, rounded ones as written. */
function asWritten(one: SlipCase, value: Fraction): Fraction {
  return one.places === undefined && one.unit ? inUnit(value, one.unit) : value;
}

/** Whether two neighbouring digits changed places, the point standing still. */
function isSwap(stated: Fraction, right: Fraction): boolean {
  const places = Math.max(placesOf(stated) ?? 9, placesOf(right) ?? 9);
  const [a, b] = [decimalText(size(stated), places), decimalText(size(right), places)].map(text =>
    text.replace('.', ''),
  );
  const width = Math.max(a!.length, b!.length);
  const [x, y] = [a!.padStart(width, '0'), b!.padStart(width, '0')];
  const differing = [...x].flatMap((digit, index) => (digit === y[index] ? [] : [index]));
  const [first, second] = differing;
  if (first === undefined || second !== first + 1 || differing.length !== 2) return false;
  return x[first] === y[second] && x[second] === y[first];
}

function isPowerOf(ratio: Fraction, base: bigint): boolean {
  let [top, bottom] = [ratio.top, ratio.bottom];
  while (top % base === 0n) top /= base;
  while (bottom % base === 0n) bottom /= base;
  return top === 1n && bottom === 1n && !isSame(ratio, fraction(1));
}

/** Two neighbouring digits of a number changed places; null where all are alike. */
export function swapDigits(draw: Draw, text: string): string | null {
  const swaps = [...text.matchAll(/(?=(\d)(\.?)(\d))/g)]
    .filter(match => match[1] !== match[3])
    .map(match => {
      const at = match.index;
      const pair = `${match[1]}${match[2]}${match[3]}`;
      return `${text.slice(0, at)}${match[3]}${match[2]}${match[1]}${text.slice(at + pair.length)}`;
    });
  return swaps.length > 0 ? swaps[whole(draw, 0, swaps.length - 1)]! : null;
}
