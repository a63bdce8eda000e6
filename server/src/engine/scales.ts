import { type Dimension, sameDimension } from './dimension.ts';
import * as R from './rational.ts';
import * as S from './scalar.ts';

/** A division of one of the scales; a rotation is the division of the screw. */
export type Division = 'main' | 'vernier' | 'linear' | 'circular' | 'rotation';

/** The finest first: each is expressed by the coarser ones where no length is known. */
export const DIVISIONS: readonly Division[] = ['vernier', 'circular', 'rotation', 'linear', 'main'];

/** One side of a scale equation: so many of each division, and a length or an angle. */
export interface LinearForm {
  readonly divisions: ReadonlyMap<Division, S.Scalar>;
  /** In base units; nought where the side has none. */
  readonly constant: S.Scalar;
  /** Null where the side has no length or angle. */
  readonly dimension: Dimension | null;
}

/** `1 cm = 20 MSD` as data; `source` says which record it came from. */
export interface ScaleEquation {
  readonly left: LinearForm;
  readonly right: LinearForm;
  readonly source: number;
}

export type ScaleTrouble =
  | { readonly kind: 'contradiction'; readonly source: number; readonly against: number }
  | { readonly kind: 'mismatch'; readonly source: number; readonly against: number }
  | { readonly kind: 'no-size'; readonly source: number; readonly division: Division };

interface Row {
  readonly pivot: Division;
  /** pivot division + sum of these = constant */
  readonly rest: ReadonlyMap<Division, S.Scalar>;
  readonly constant: S.Scalar;
  readonly dimension: Dimension | null;
  readonly sources: readonly number[];
}

/** The solved scales: what each division is worth, as far as the equations settle it. */
export interface Scales {
  readonly rows: readonly Row[];
  readonly dimension: Dimension | null;
  readonly troubles: readonly ScaleTrouble[];
}

/**
 * Solves the scale equations, exactly: S, V, pitch, linear and circular divisions.
 *
 * Homogeneous linear equations between division values, by elimination. An equation that excludes an earlier one is
 * left out and named together with the one it contradicts.
 */
export function solveScales(equations: readonly ScaleEquation[]): Scales {
  let scales: Scales = { rows: [], dimension: null, troubles: [] };
  for (const equation of equations) scales = withEquation(scales, equation);
  return scales;
}

/** The scales with one more equation. */
export function withEquation(scales: Scales, equation: ScaleEquation): Scales {
  const { left, right, source } = equation;
  const dimension = left.dimension ?? right.dimension;
  if (
    left.dimension !== null &&
    right.dimension !== null &&
    !sameDimension(left.dimension, right.dimension)
  ) {
    return troubled(scales, { kind: 'mismatch', source, against: source });
  }
  if (dimension !== null && scales.dimension !== null && !sameDimension(dimension, scales.dimension)) {
    const against = scales.rows.find(row => row.dimension !== null)?.sources[0] ?? source;
    return troubled(scales, { kind: 'mismatch', source, against });
  }
  let divisions = difference(left.divisions, right.divisions);
  let constant = S.subtract(right.constant, left.constant);
  let sources: readonly number[] = [source];
  let sized = dimension;
  for (const row of scales.rows) {
    const factor = divisions.get(row.pivot);
    if (factor === undefined) continue;
    const others = new Map(divisions);
    others.delete(row.pivot);
    divisions = difference(others, scaled(row.rest, factor));
    constant = S.subtract(constant, S.multiply(row.constant, factor));
    sources = [...sources, ...row.sources];
    sized ??= row.dimension;
  }
  const pivot = DIVISIONS.find(division => divisions.has(division));
  if (pivot === undefined) {
    if (S.isZero(constant)) return scales;
    // The line about the same scale comes before those that only give it its size.
    const finest = DIVISIONS.find(division => left.divisions.has(division) || right.divisions.has(division));
    const same = scales.rows.find(row => row.pivot === finest)?.sources[0];
    const against = same ?? sources.find(other => other !== source) ?? source;
    return troubled(scales, { kind: 'contradiction', source, against });
  }
  const factor = divisions.get(pivot)!;
  const inverse = S.divide(S.UNITY, factor);
  if (inverse === null) return scales;
  const others = new Map(divisions);
  others.delete(pivot);
  const value = S.multiply(constant, inverse);
  const row: Row = {
    pivot,
    rest: scaled(others, inverse),
    constant: value,
    dimension: sized,
    sources: [...new Set(sources)],
  };
  if (others.size === 0 && S.sign(value) !== undefined && S.sign(value) !== 1) {
    return troubled(scales, { kind: 'no-size', source, division: pivot });
  }
  const rows = [...scales.rows.map(earlier => eliminated(earlier, row)), row];
  return { ...scales, rows, dimension: scales.dimension ?? dimension };
}

function eliminated(row: Row, by: Row): Row {
  const factor = row.rest.get(by.pivot);
  if (factor === undefined) return row;
  const rest = new Map(row.rest);
  rest.delete(by.pivot);
  return {
    pivot: row.pivot,
    rest: difference(rest, scaled(by.rest, factor)),
    constant: S.subtract(row.constant, S.multiply(by.constant, factor)),
    dimension: row.dimension ?? by.dimension,
    sources: [...new Set([...row.sources, ...by.sources])],
  };
}

function troubled(scales: Scales, trouble: ScaleTrouble): Scales {
  return { ...scales, troubles: [...scales.troubles, trouble] };
}

function difference(
  a: ReadonlyMap<Division, S.Scalar>,
  b: ReadonlyMap<Division, S.Scalar>,
): ReadonlyMap<Division, S.Scalar> {
  const result = new Map(a);
  for (const [division, factor] of b) {
    const value = S.subtract(result.get(division) ?? S.NOUGHT, factor);
    if (S.isZero(value)) result.delete(division);
    else result.set(division, value);
  }
  return result;
}

function scaled(form: ReadonlyMap<Division, S.Scalar>, factor: S.Scalar): ReadonlyMap<Division, S.Scalar> {
  return new Map([...form].map(([division, value]) => [division, S.multiply(value, factor)]));
}

/** What one division is worth, in base units (metres or degrees); null while the equations leave it open. */
export function divisionValue(scales: Scales, division: Division): S.Scalar | null {
  const row = scales.rows.find(candidate => candidate.pivot === division);
  return row !== undefined && row.rest.size === 0 && row.dimension !== null ? row.constant : null;
}

/** Which records settle a division's value. */
export function divisionSources(scales: Scales, division: Division): readonly number[] {
  return scales.rows.find(candidate => candidate.pivot === division)?.sources ?? [];
}

/** How many of the coarser division make one of the finer: V/S, CSD per rotation; null while it is open. */
export function divisionRatio(scales: Scales, finer: Division, coarser: Division): S.Scalar | null {
  if (finer === coarser) return S.UNITY;
  const a = divisionValue(scales, finer);
  const b = divisionValue(scales, coarser);
  if (a !== null && b !== null) return S.divide(a, b);
  const first = inFree(scales, finer);
  const second = inFree(scales, coarser);
  if (first === null || second === null || first.division !== second.division) return null;
  return S.divide(first.factor, second.factor);
}

/** A division as a multiple of one other that the equations leave open. */
function inFree(scales: Scales, division: Division): { division: Division; factor: S.Scalar } | null {
  const row = scales.rows.find(candidate => candidate.pivot === division);
  if (row === undefined) return { division, factor: S.UNITY };
  const [only, ...more] = [...row.rest];
  if (only === undefined || more.length > 0 || !S.isZero(row.constant)) return null;
  return { division: only[0], factor: S.negate(only[1]) };
}

/** Whether the equations say anything about a division. */
export function mentions(scales: Scales, division: Division): boolean {
  return scales.rows.some(row => row.pivot === division || row.rest.has(division));
}

/**
 * The smallest step that a vernier can tell apart, in main divisions: the smallest non-zero distance of b·V from a
 * multiple of S for 1 <= b <= lines.
 *
 * `ratio` is V/S. It equals |S - V| for every vernier with N VSD = (N ± 1) MSD, and 1/N for every N VSD = M MSD
 * without a common factor. Exact; null where letters leave it open. Source: best rational approximation, the
 * convergents of the continued fraction of V/S.
 */
export function leastStep(ratio: S.Scalar, lines: S.Scalar | null): S.Scalar | null {
  const value = S.realValue(ratio);
  if (value === null) return null;
  const limit = lines === null ? null : S.realValue(lines);
  const whole = R.denominator(value);
  if (limit === null || R.compare(limit, R.rational(whole)) >= 0) {
    return whole === 1n ? null : S.real(R.rational(1n, whole));
  }
  return S.real(nearestToWhole(value, R.numerator(R.floor(limit))));
}

function nearestToWhole(ratio: R.Rational, most: bigint): R.Rational {
  // Convergents of the fractional part; the last with a denominator of at most `most` is the nearest.
  let remaining = R.modulo(ratio, R.ONE);
  let previous = 0n;
  let current = 1n;
  for (;;) {
    const inverse = R.reciprocal(remaining);
    if (inverse === null) break;
    const part = R.numerator(R.floor(inverse));
    const next = part * current + previous;
    if (next > most) break;
    previous = current;
    current = next;
    remaining = R.subtract(inverse, R.rational(part));
  }
  const product = R.modulo(R.multiply(ratio, R.rational(current)), R.ONE);
  return R.min(product, R.subtract(R.ONE, product));
}
