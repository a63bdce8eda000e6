import { toDecimalText } from '../engine/decimal-text.ts';
import type * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import { unitShown } from '../engine/unit.ts';
import type { Edit } from '../language/problem.ts';
import { type Span, spanOf } from '../language/syntax.ts';
import { powerApart, spelledTenfold, type TypedNumber, typedNumber } from './typed-number.ts';

/**
 * Writes a right value over a stated one, `span` being where that stands and `right` the text of the other.
 *
 * Of a value in math dress, and of one whose unit or power of ten stands apart from it, only the number is written over:
 *
 *     > | (6.0000 ± 0.5) × 10^2 mm^2
 *          ^^^^^^                      6.00, for 6.00 × 10^2 mm^2
 *     > | $9.5$ cm^2
 *          ^^^                         9.0, for 9.0 cm^2
 */
export function valueEdit(text: string, span: Span, stated: Q.Quantity, right: string): Edit {
  const raw = text.slice(span.start, span.end);
  const typed = typedNumber(raw);
  const number = typed === null ? null : numberOnly(raw, typed, stated, right);
  if (typed === null || number === null) return { span, newText: right };
  return {
    span: spanOf(span.start + typed.span.start, span.start + typed.span.end),
    newText: number,
  };
}

/** The number to be written where only the number is written over; null where the whole value is. */
function numberOnly(raw: string, typed: TypedNumber, stated: Q.Quantity, right: string): string | null {
  const behind = raw.slice(typed.span.end).trim();
  if (behind !== '' && !DRESS.test(raw)) return null;
  if (IN_PARTS.test(behind) || IN_PARTS.test(right)) return null;
  const wanted = typedNumber(right);
  const power = powerApart(typed, stated);
  const shown = stated.unit === null ? '' : unitShown(stated.unit);
  if (wanted === null || power === null || right.slice(wanted.span.end).trim() !== shown) return null;
  const number = right.slice(0, wanted.span.end);
  const tenfold = /^(\S+) × 10\^(-?\d+)$/.exec(number);
  if (typed.shape.kind === 'tenfold' && tenfold !== null && power === 0)
    return spelledTenfold(tenfold[1]!, Number(tenfold[2]), typed.shape.spelling);
  if (power === 0) return number;
  return wanted.shape.kind === 'fraction'
    ? null
    : shifted(tenfold?.[1] ?? number, Number(tenfold?.[2] ?? 0) - power);
}

/** Math, LaTeX, emphasis, brackets: what a value wears. */
const DRESS = /[\\${}*_[\]]/;

/** `24° 31′`, `5 min 20 s`: no single number says the value. */
const IN_PARTS = /[′″'"]|arcmin|arcsec|[A-Za-z]\s+\d/;

/** A decimal with its point moved: 6.00 by two places is 600. */
function shifted(digits: string, by: number): string {
  const value = R.parseDecimal(digits.replace('+', '')) ?? R.ZERO;
  const places = (/\.(\d+)$/.exec(digits)?.[1]?.length ?? 0) - by;
  const text = toDecimalText(R.multiply(value, R.powerInteger(R.TEN, by) ?? R.ONE), Math.max(0, places));
  return digits.startsWith('+') ? `+${text}` : text;
}
