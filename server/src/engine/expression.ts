import type { Quantity } from './quantity.ts';
import type { Rational } from './rational.ts';
import type { Unit } from './unit.ts';

export type FunctionName =
  | 'sqrt'
  | 'sin'
  | 'cos'
  | 'tan'
  | 'arcsin'
  | 'arccos'
  | 'arctan'
  | 'abs'
  | 'mean'
  | 'mod';

/** A formula as data. Names are keys that whoever evaluates it looks up. */
export type Expression =
  | {
      readonly kind: 'literal';
      readonly quantity: Quantity;
      /** One in the last place stated, in base units; null for a fraction, which states no place. */
      readonly place: Rational | null;
      readonly text: string;
    }
  | { readonly kind: 'name'; readonly key: string; readonly text: string }
  | { readonly kind: 'pi' }
  | { readonly kind: 'negate'; readonly of: Expression }
  | {
      readonly kind: 'add' | 'subtract' | 'multiply' | 'divide';
      readonly left: Expression;
      readonly right: Expression;
    }
  | { readonly kind: 'power'; readonly base: Expression; readonly exponent: Expression }
  | { readonly kind: 'call'; readonly name: FunctionName; readonly arguments: readonly Expression[] }
  /** A unit after brackets or at a link's end that measures all of its terms: `(2.4 + 0.06) cm`. */
  | { readonly kind: 'measured'; readonly of: Expression; readonly unit: Unit };
