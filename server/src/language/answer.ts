import type { Quantity, Trouble } from '../engine/quantity.ts';
import type { Span } from './syntax.ts';

/** Where a value comes from. */
export type Source = 'computed' | 'given' | 'observed';

/** Why something cannot be worked out. */
export type Lack =
  /** Nothing determines it; the message says what to record. */
  | { readonly kind: 'missing'; readonly message: string }
  /** What was observed cannot occur together. */
  | { readonly kind: 'impossible'; readonly message: string; readonly span: Span | null }
  /** More than one reading fits. */
  | {
      readonly kind: 'ambiguous';
      readonly message: string;
      readonly span: Span | null;
      readonly candidates: readonly Quantity[];
    }
  | { readonly kind: 'circular'; readonly message: string }
  /** The arithmetic does not work: centimetres and degrees, a division by nought. */
  | { readonly kind: 'trouble'; readonly trouble: Trouble; readonly span: Span | null }
  /** A word in a formula that means nothing here. */
  | { readonly kind: 'unknown-name'; readonly word: string; readonly span: Span | null }
  /** A word that is both a unit and a name, where both readings fit or none does. */
  | { readonly kind: 'two-readings'; readonly span: Span; readonly word: string }
  | { readonly kind: 'limit'; readonly message: string }
  /** Something else is wrong first, and that is reported at its own place. */
  | { readonly kind: 'reported' };

/** A value with where it comes from, or why there is none. */
export type Answer =
  | {
      readonly ok: true;
      readonly quantity: Quantity;
      readonly source: Source;
      /** The line that records it; null for what is computed. */
      readonly span: Span | null;
    }
  | { readonly ok: false; readonly lack: Lack };

export function computed(quantity: Quantity): Answer {
  return { ok: true, quantity, source: 'computed', span: null };
}

export function lacking(lack: Lack): Answer {
  return { ok: false, lack };
}

export function missing(message: string): Answer {
  return lacking({ kind: 'missing', message });
}

export const REPORTED: Answer = lacking({ kind: 'reported' });
