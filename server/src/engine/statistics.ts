import { mean } from './evaluation.ts';
import * as Q from './quantity.ts';
import * as R from './rational.ts';

/** How far the values lie from their mean, each without its sign, on average: sum of |x - mean| / n. Exact. */
export function meanAbsoluteError(values: readonly Q.Quantity[]): Q.Outcome {
  const deviations: Q.Quantity[] = [];
  const middle = mean(values);
  if (!middle.ok) return middle;
  for (const value of values) {
    const difference = Q.subtract(value, middle.quantity);
    const size = difference.ok ? Q.abs(difference.quantity) : difference;
    if (!size.ok) return size;
    deviations.push(size.quantity);
  }
  return mean(deviations);
}

/**
 * How much single values scatter about their mean: sqrt(sum of (x - mean)² / (n - 1)).
 *
 * Exact up to the root. Needs two values or more. Source: GUM (JCGM 100:2008) 4.2.2, with n - 1.
 */
export function standardDeviation(values: readonly Q.Quantity[]): Q.Outcome {
  const middle = mean(values);
  if (!middle.ok) return middle;
  let sum: Q.Quantity | null = null;
  for (const value of values) {
    const difference = Q.subtract(value, middle.quantity);
    const square = difference.ok ? Q.multiply(difference.quantity, difference.quantity) : difference;
    const total: Q.Outcome = square.ok && sum !== null ? Q.add(sum, square.quantity) : square;
    if (!total.ok) return total;
    sum = total.quantity;
  }
  if (sum === null || values.length < 2) return { ok: false, trouble: { kind: 'zero-division' } };
  const variance = Q.divide(sum, Q.plain(R.rational(values.length - 1)));
  const root = variance.ok ? Q.sqrt(variance.quantity) : variance;
  return root.ok && middle.quantity.unit !== null
    ? { ok: true, quantity: Q.withUnit(root.quantity, middle.quantity.unit) }
    : root;
}

/** The scatter of the mean: s / sqrt(n). Source: GUM (JCGM 100:2008) 4.2.3. */
export function standardDeviationOfMean(values: readonly Q.Quantity[]): Q.Outcome {
  const single = standardDeviation(values);
  const root = Q.sqrt(Q.plain(R.rational(values.length)));
  if (!single.ok) return single;
  return root.ok ? Q.divide(single.quantity, root.quantity) : root;
}
