import type { Expression } from '../engine/expression.ts';
import type { Halves } from '../engine/rounds-to.ts';
import type { Problem } from './problem.ts';
import type { RuleName } from './rule-names.ts';
import type { Fence, Span } from './syntax.ts';
import type { ComputedTerm, DivisionTerm, ObservableTerm, ScaleTerm, StatisticTerm } from './term-names.ts';

/** A row of the block's table by its number from 1; null stands for the block's single reading. */
export type RowNumber = number | null;

/**
 * What a name means: a term, a quantity of one's own, or something worked out from another subject.
 *
 * `block` null means the block that says it.
 */
export type Subject =
  | {
      readonly kind: 'term';
      readonly term: ComputedTerm | ObservableTerm;
      readonly row: RowNumber;
      readonly block: string | null;
    }
  | { readonly kind: 'division'; readonly division: DivisionTerm; readonly block: string | null }
  | { readonly kind: 'count'; readonly block: string | null } // N: the number of divisions of the fine scale
  | { readonly kind: 'own'; readonly name: string; readonly row: RowNumber; readonly block: string | null }
  | {
      readonly kind: 'statistic';
      readonly statistic: StatisticTerm;
      readonly of: Subject;
      readonly from: Expression | null;
    }
  | { readonly kind: 'unknown'; readonly word: string };

/** A value as somebody stated it: `2.45 cm`, `1.06 g ± 0.01 g`. */
export interface Stated {
  readonly expression: Expression;
  readonly error: Expression | null;
  /** One literal and nothing else. */
  readonly isValue: boolean;
  readonly hasUnit: boolean;
  readonly span: Span;
  /** As typed, without dress, for messages. */
  readonly text: string;
  /** Other ways to read it, where a word is both a unit and a name: the one whose dimensions fit is taken. */
  readonly readings: readonly Expression[];
  /** Readings in which one word is a name here and a unit there: taken only where none of the others fits. */
  readonly mixed: readonly Expression[];
  /** Where the literals and names of the expression stand. */
  readonly spans: ReadonlyMap<Expression, Span>;
}

export type LinkContent =
  | { readonly kind: 'stated'; readonly stated: Stated }
  | { readonly kind: 'asked' } // `?`
  | { readonly kind: 'broken' }; // could not be read; reported where it stands

/** One part of a claim between equals signs. */
export interface Link {
  readonly content: LinkContent;
  readonly span: Span;
}

/** What somebody worked out: `observed reading = link = link …`. */
export interface Claim {
  readonly subject: Subject;
  readonly symbol: string | null;
  /** How many divisions a claim about the scales speaks of: `10 VSD = …`; null otherwise. */
  readonly times: Expression | null;
  readonly subjectText: string;
  readonly subjectSpan: Span;
  readonly links: readonly Link[];
  /** The whole statement, for edits. */
  readonly span: Span;
  /** The `=` (or `:`) behind the subject. */
  readonly signSpan: Span;
  /** A cell of a table claims too. */
  readonly inTable: boolean;
  /** Read as its first fix would write it; what it says is already reported at its place. */
  readonly mended: boolean;
}

/** An observable as recorded. */
export type Observation =
  | { readonly kind: 'at'; readonly value: Observed; readonly span: Span; readonly valueSpan: Span }
  | {
      readonly kind: 'between';
      readonly low: Observed;
      readonly high: Observed;
      readonly span: Span;
      readonly valueSpan: Span;
    }
  | {
      readonly kind: 'direction';
      readonly toward: 'higher' | 'lower';
      readonly span: Span;
      readonly valueSpan: Span;
    };

/** A length or an angle, or a count of divisions. */
export type Observed =
  | { readonly kind: 'length'; readonly stated: Stated }
  | { readonly kind: 'count'; readonly count: Stated; readonly division: DivisionTerm | null };

export type Readings = ReadonlyMap<ObservableTerm, Observation>;

/** How the closed instrument stands; the sign says on which side of zero. */
export type ClosedPosition =
  | { readonly kind: 'zeros-coincide' }
  | {
      readonly kind: 'division';
      readonly side: 'positive' | 'negative' | 'nearest';
      readonly scale: 'vernier' | 'circular' | 'linear';
      readonly division: Stated | null;
      /** The one after it, where the zero stands between the two: `between 4 and 5`. */
      readonly nextDivision: Stated | null;
      readonly vernierDivision: Stated | null;
      readonly fromFarEnd: boolean;
    }
  /** `2 divisions above the line`, `4′ off the arc`. */
  | {
      readonly kind: 'offset';
      readonly side: 'positive' | 'negative';
      readonly divisions: Stated | null;
      readonly angle: Stated | null;
    };

export interface Closed {
  readonly position: ClosedPosition;
  readonly span: Span;
  readonly valueSpan: Span;
}

/** A scale record as equations; `left` and `right` still hold names of divisions and letters. */
export interface ScaleRecord {
  readonly scale: ScaleTerm | DivisionTerm;
  readonly sides: readonly Stated[];
  readonly span: Span;
}

/** A computed term or an own quantity that the question gives. */
export interface Given {
  readonly stated: Stated;
  readonly span: Span;
  /** Taken from a claim that nothing determines. */
  readonly assumed: boolean;
}

export type LetterKind = 'number' | 'whole number' | 'length' | 'mass' | 'time' | 'angle' | 'quantity';

/** A quantity of one's own. */
export type OwnRecord =
  | { readonly kind: 'value'; readonly given: Given }
  | { readonly kind: 'list'; readonly values: readonly Stated[]; readonly span: Span }
  | {
      readonly kind: 'letter';
      readonly domain: LetterKind;
      readonly error: Expression | null;
      readonly span: Span;
    };

export interface Row {
  readonly number: number;
  readonly label: string | null;
  readonly readings: Readings;
  readonly own: ReadonlyMap<string, Given>;
  readonly span: Span;
}

export interface Option {
  readonly letter: string;
  /** Null for "none of these". */
  readonly stated: Stated | null;
  readonly text: string;
  readonly span: Span;
  readonly valueSpan: Span;
}

export interface Question {
  readonly find: { readonly subject: Subject; readonly text: string; readonly span: Span } | null;
  readonly options: readonly Option[];
  readonly answer: {
    readonly letters: readonly string[];
    readonly stated: Stated | null;
    readonly span: Span;
    readonly valueSpan: Span;
  } | null;
}

/** What a sentence may record, by its words: a vernier or a circular scale, how a screw turns, nothing of these. */
export type SentenceRecord = 'fine scale' | 'screw' | 'nothing';

export interface Waiver {
  readonly rule: RuleName;
  readonly reason: string;
  readonly span: Span;
}

export type ErrorRule =
  | 'least count'
  | 'half the least count'
  | 'mean absolute error'
  | 'rectangular'
  | 'standard deviation of the mean';

/** What a block means: scale equations, records, claims, terms resolved. Whatever could not be read is a problem. */
export interface Measurement {
  readonly fence: Fence;
  readonly name: string | null;
  readonly nameSpan: Span | null;
  readonly instrument: string | null;
  readonly scales: readonly ScaleRecord[];
  /** Lines recorded for a scale: `vernier scale: 50 divisions`. */
  readonly counts: ReadonlyMap<ScaleTerm, Stated>;
  readonly runsBackward: boolean;
  readonly range: { readonly from: Stated; readonly to: Stated; readonly span: Span } | null;
  readonly readings: Readings;
  readonly rows: readonly Row[];
  /** Names of own columns. */
  readonly columns: ReadonlySet<string>;
  readonly closed: readonly Closed[];
  readonly givens: ReadonlyMap<ComputedTerm, Given>;
  /** Quantities of one's own, by the names that stand for them. */
  readonly own: ReadonlyMap<string, OwnRecord>;
  /** Symbols that name a term's value: `mean corrected reading D`. */
  readonly symbols: ReadonlyMap<string, Subject>;
  /** The span is null where the settings say it, and no line. */
  readonly errorRule: { readonly rule: ErrorRule; readonly span: Span | null } | null;
  /** Which way a half may go where a value is rounded. */
  readonly halves: Halves;
  readonly coverageFactor: Stated | null;
  readonly claims: readonly Claim[];
  /** What is claimed of numbers alone, `1 in = 25.4 mm`; the first link is the left side. */
  readonly sums: readonly Claim[];
  /** Observables typed with an equals sign: records, but claims where the rest of the block determines them. */
  readonly typedAsClaims: readonly Claim[];
  readonly uses: { readonly name: string; readonly span: Span } | null;
  /** What the names in the block's formulas mean. */
  readonly subjects: ReadonlyMap<string, Subject>;
  readonly question: Question;
  readonly waivers: readonly Waiver[];
  /** Terms, scales and names whose records could not be read; what rests on them is not reported again. */
  readonly broken: ReadonlySet<string>;
  /** Those of them that a line of the whole block was to record: a value found without them is not to be relied on. */
  readonly unread: ReadonlySet<string>;
  /** What sentences that could not be read may record. */
  readonly sentences: ReadonlySet<SentenceRecord>;
  /** Rules that a waiver means which could not be read. */
  readonly halfWaived: ReadonlySet<RuleName>;
  readonly problems: readonly Problem[];
}
