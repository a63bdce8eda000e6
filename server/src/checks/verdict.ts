import type { Quantity } from '../engine/quantity.ts';
import type { Slip } from '../engine/slips/slip.ts';
import type { Lack } from '../language/answer.ts';
import type { Claim, Link } from '../language/measurement.ts';
import type { Span } from '../language/syntax.ts';
import type { StatedValue } from './agreement.ts';

interface At {
  /** The index of the block that makes the claim. */
  readonly block: number;
  readonly claim: Claim;
  readonly link: Link | null;
  readonly span: Span;
}

export interface NamedSlip {
  readonly slip: Slip;
  readonly because: string;
  /** Another slip that gives the same number. */
  readonly next: Slip | null;
}

/** What was found about one link of a claim. Right links have no verdict. */
export type Verdict = At &
  (
    | {
        readonly kind: 'wrong';
        readonly stated: StatedValue;
        readonly truth: Quantity;
        /** Whether the value or the error behind ± is wrong. */
        readonly part: 'value' | 'error';
        readonly slip: NamedSlip | null;
      }
    | {
        readonly kind: 'carried' | 'rounded-early';
        readonly stated: StatedValue;
        readonly truth: Quantity;
        readonly cause: Claim;
        readonly causeSpan: Span;
        /** What else it follows from, where it takes several; without those that follow from another themselves. */
        readonly others: readonly { readonly claim: Claim; readonly span: Span }[];
      }
    | {
        readonly kind: 'places';
        readonly stated: StatedValue;
        readonly truth: Quantity;
        readonly too: 'few' | 'many';
        readonly places: number;
        readonly shown: string;
      }
    | {
        readonly kind: 'untraced';
        readonly numbers: readonly { readonly text: string; readonly span: Span }[];
      }
    | { readonly kind: 'lack'; readonly lack: Lack }
    | { readonly kind: 'other-kind'; readonly stated: Quantity; readonly truth: Quantity }
    | { readonly kind: 'bare'; readonly truth: Quantity; readonly text: string }
    | { readonly kind: 'assumed' }
    /** A scale claim that excludes what the scales record. */
    | { readonly kind: 'excluded'; readonly against: Span | null }
    | { readonly kind: 'meant-corrected'; readonly stated: StatedValue; readonly truth: Quantity }
    | { readonly kind: 'hundred' }
    /** A percentage written as a share, 0.014 for 1.4 %; `percent` is what it comes to. */
    | { readonly kind: 'share'; readonly percent: string }
  );
