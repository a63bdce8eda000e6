import type { Expression } from './expression.ts';

/**
 * How one quantity follows from what was recorded, step by step.
 *
 * Plain data: one renderer makes block lines of it, another Markdown with math, another plain text. Whatever is
 * written in a step is true of the exact values; a rounded result stands behind `≈`.
 */
export interface Derivation {
  /** What is worked out, as a heading says it: `Least count`, `Observed reading of row 2`. */
  readonly title: string;
  readonly steps: readonly Step[];
}

/** One line of a working, a table of values, or a remark. */
export type Step =
  /** A left side and what it is equal to: formula, the numbers put in, the result. */
  | {
      readonly kind: 'line';
      /** Why this step is taken, as a sentence without its final stop; null where the formula says it all. */
      readonly reason: string | null;
      readonly left: Expression;
      readonly links: readonly StepLink[];
      /**
       * Whether a block can claim it: `left` is then one name of a term, of a quantity of one's own, or a count of
       * divisions. Lines that only lead there (`x + 17·V = m·S`) are none.
       */
      readonly isClaim: boolean;
    }
  /** The same step for each row of a table: headings, and a cell under each of them. */
  | {
      readonly kind: 'table';
      readonly reason: string | null;
      readonly header: readonly string[];
      readonly rows: readonly (readonly (Expression | string)[])[];
    }
  /** Words only: why a choice of a question is wrong. */
  | { readonly kind: 'remark'; readonly text: string };

/** One part of a line between its signs of equality. */
export interface StepLink {
  /** `≈` before a rounded value. */
  readonly relation: '=' | '≈';
  readonly value: Expression;
  /** What stands behind `±`; null where nothing does. */
  readonly error: Expression | null;
}
