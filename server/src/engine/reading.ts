import * as R from './rational.ts';

/** Positions from `from` on, less than `width` further: `from <= x && x < from + width`. */
export interface Window {
  readonly from: R.Rational;
  readonly width: R.Rational;
}

/** What one scale says about the position, in base units. */
export type ScaleSays =
  /** A coarse scale: the last mark passed. */
  | ({ readonly kind: 'window' } & Window)
  /** A coarse scale that comes round again: the division of a drum that has just passed the line. */
  | ({ readonly kind: 'round'; readonly period: R.Rational } & Window)
  /** A fine scale: x ≡ residue (mod modulus). */
  | { readonly kind: 'congruence'; readonly residue: R.Rational; readonly modulus: R.Rational };

export type Position =
  | { readonly kind: 'one'; readonly at: R.Rational }
  | { readonly kind: 'none' }
  | { readonly kind: 'several'; readonly at: readonly R.Rational[] }
  | { readonly kind: 'too-many' };

/** More rounds than this within one coarse division are no instrument. */
const MOST_ROUNDS = 1000n;

/**
 * The position that fits all that the scales show, solved together.
 *
 * One solution is the reading; none means that these cannot occur together; several mean an ambiguous reading. Exact,
 * in base units. There is no case for a kind of vernier: only windows and congruences.
 */
export function findPosition(says: readonly ScaleSays[]): Position {
  let windows: Window[] | null = null;
  for (const scale of says) {
    if (scale.kind === 'window') windows = windows === null ? [scale] : meetAll(windows, scale);
  }
  if (windows === null) return { kind: 'too-many' };
  for (const scale of says) {
    if (scale.kind !== 'round') continue;
    const narrowed: Window[] = [];
    for (const window of windows) {
      const rounds = roundsWithin(window, scale);
      if (rounds === null) return { kind: 'too-many' };
      narrowed.push(...rounds);
    }
    windows = narrowed;
  }
  let points: R.Rational[] | null = null;
  for (const scale of says) {
    if (scale.kind !== 'congruence') continue;
    if (points !== null) {
      points = points.filter(point => R.isZero(R.modulo(R.subtract(point, scale.residue), scale.modulus)));
      continue;
    }
    points = [];
    for (const window of windows) {
      const inside = solutionsWithin(window, scale.residue, scale.modulus);
      if (inside === null) return { kind: 'too-many' };
      points.push(...inside);
    }
  }
  if (points === null) return { kind: 'too-many' };
  const [first, ...others] = points;
  if (first === undefined) return { kind: 'none' };
  return others.length === 0 ? { kind: 'one', at: first } : { kind: 'several', at: points };
}

/** The solutions of x ≡ residue (mod modulus) with from <= x < from + width; null past the stated bound. */
function solutionsWithin(window: Window, residue: R.Rational, modulus: R.Rational): R.Rational[] | null {
  if (R.sign(modulus) <= 0) return [];
  const count = R.divide(window.width, modulus)!;
  if (R.compare(count, R.rational(MOST_ROUNDS)) > 0) return null;
  const end = R.add(window.from, window.width);
  const points: R.Rational[] = [];
  let point = R.add(window.from, R.modulo(R.subtract(residue, window.from), modulus));
  while (R.compare(point, end) < 0) {
    points.push(point);
    point = R.add(point, modulus);
  }
  return points;
}

/** The solution of x ≡ residue (mod modulus) nearest to a place; of two equally near ones the upper. */
export function nearestSolution(near: R.Rational, residue: R.Rational, modulus: R.Rational): R.Rational {
  const half = R.multiply(modulus, R.HALF);
  const lowest = R.subtract(near, half);
  const offset = R.modulo(R.subtract(residue, lowest), modulus);
  return R.add(lowest, R.isZero(offset) ? modulus : offset);
}

function meetAll(windows: readonly Window[], other: Window): Window[] {
  return windows.flatMap(window => meet(window, other));
}

function meet(a: Window, b: Window): Window[] {
  const from = R.max(a.from, b.from);
  const end = R.min(R.add(a.from, a.width), R.add(b.from, b.width));
  return R.compare(from, end) < 0 ? [{ from, width: R.subtract(end, from) }] : [];
}

function roundsWithin(window: Window, round: Window & { readonly period: R.Rational }): Window[] | null {
  // The round that begins last before the window may still reach into it.
  const early = { from: R.subtract(window.from, round.period), width: R.add(window.width, round.period) };
  const starts = solutionsWithin(early, round.from, round.period);
  if (starts === null) return null;
  return starts.flatMap(from => meet({ from, width: round.width }, window));
}
