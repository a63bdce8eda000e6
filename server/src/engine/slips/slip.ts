import type { Expression } from '../expression.ts';
import type { Outcome, Quantity } from '../quantity.ts';
import type { Rational } from '../rational.ts';

export type SlipName =
  | 'zero-correction-left-out'
  | 'zero-correction-sign'
  | 'zero-correction-twice'
  | 'closed-division-as-read'
  | 'division-miscounted'
  | 'forward-rule'
  | 'division-over-n'
  | 'difference-not-least-count'
  | 'vernier-division-for-least-count'
  | 'mark-at-coincidence'
  | 'next-mark'
  | 'half-turn-missed'
  | 'circular-reading-times-pitch'
  | 'pitch-as-one-division'
  | 'unit-slip'
  | 'power-of-ten'
  | 'radius-for-diameter'
  | 'power-left-out'
  | 'errors-subtracted'
  | 'signed-deviations'
  | 'rows-left-out'
  | 'digits-swapped'
  | 'sign-slip'
  | 'rounded-twice'
  | 'cut-off'
  | 'rotation-miscounted'
  | 'full-circle-missed';

/** Values of the same block or row that a slip may put in the wrong place. */
export type SlipTerm =
  | 'least count'
  | 'pitch'
  | 'main scale division'
  | 'vernier scale division'
  | 'linear scale division'
  | 'circular scale division'
  | 'main scale reading'
  | 'linear scale reading'
  | 'coinciding division'
  | 'circular scale reading'
  | 'initial circular reading'
  | 'final circular reading'
  | 'full rotations'
  | 'vernier scale reading'
  | 'zero error'
  | 'zero correction'
  | 'observed reading'
  | 'corrected reading';

/**
 * One measured thing's share of an error: |∂f/∂x|·Δx, with the power of x where the formula is a product of powers, and
 * what is left of the share where every power is left out of it.
 */
export interface SlipErrorTerm {
  readonly size: Quantity;
  readonly power: Rational | null;
  readonly once: Quantity;
}

/** A claim that went wrong, with the same data that the right value comes from. */
export interface SlipData {
  /** What is claimed: a term's full name, a statistic's (`percentage error`), or `own` for a quantity of one's own. */
  readonly target: string;
  /** The exact right value. */
  readonly truth: Quantity;
  /** The value as stated in this link. */
  readonly stated: Quantity;
  /** One in the last place stated, in base units; null for a fraction or a formula. */
  readonly place: Rational | null;
  /** The numbers put in, where it is stated as a formula: 3 mm, 44 and 0.01 mm; empty for a value. */
  readonly numbers: readonly Quantity[];
  /** The right value of another term in the same row; null where the block does not determine it. */
  value(term: SlipTerm): Quantity | null;
  /** N: how many divisions the fine scale has; null while open. */
  readonly count: Rational | null;
  readonly vernier: 'none' | 'on main scale' | 'on drum';
  readonly isScrew: boolean;
  readonly runsBackward: boolean;
  /** The closed position as read: the division on the line or in line, and the side of zero; null without one. */
  readonly closed: {
    readonly division: Rational | null;
    readonly vernierDivision: Rational | null;
    readonly side: 'positive' | 'negative' | 'nearest';
  } | null;
  /** The values that a mean or a scatter is taken over; empty for others. */
  readonly values: readonly Quantity[];
  /** The formula of a quantity of one's own; null for others. */
  readonly formula: Expression | null;
  /** The value of a name in that formula. */
  lookup(key: string): Outcome;
  /** For an error claim: the shares that add up to the absolute error, and the value it belongs to; empty for others. */
  readonly errorTerms: readonly SlipErrorTerm[];
  readonly errorOf: Quantity | null;
  /** The link before this one as a value, where there is one: 0.35 before 0.4. */
  readonly before: { readonly value: Quantity; readonly place: Rational | null } | null;
}

/** What a slip would have given on the same data. */
export interface SlipValue {
  readonly value: Quantity;
  /** What happened, as a teacher tells a student: it goes on from "…, but right is …: ", one breath, no final stop. */
  because(): string;
}

/** One known slip: the wrong formula and the sentence that explains it. */
export interface Slip {
  readonly name: SlipName;
  /** One line for lists: what goes wrong. */
  readonly summary: string;
  /** A paragraph for the page and `explain`, in a tutor's words. */
  readonly explanation: string;
  /** The wrong formula beside the right one; null where the slip is no formula. */
  readonly formula: string | null;
  /** A marked note that shows it. */
  readonly example: string;
  /**
   * What the slip gives on this data: none where it does not apply. A value equal to the right one is no slip and is
   * left out by whoever asks; comparing with what is stated (rounding) is done there too.
   */
  values(data: SlipData): readonly SlipValue[];
}
