import type { Fix } from '../language/problem.ts';
import type { RuleName } from '../language/rule-names.ts';
import type { Span } from '../language/syntax.ts';

export type Severity = 'error' | 'warning';

/** One inconsistency of a note: which rule, where, what is stated and what is right, and the slip that explains it. */
export interface Finding {
  readonly rule: RuleName;
  readonly severity: Severity;
  readonly message: string;
  readonly span: Span;
  /** The block's name; null for a block without one. */
  readonly block: string | null;
  readonly term: string | null;
  readonly row: number | string | null;
  readonly stated: string | null;
  readonly computed: string | null;
  readonly slip: string | null;
  /** Where the root cause stands, for what is carried forward. */
  readonly cause: Span | null;
  readonly related: readonly { readonly span: Span; readonly message: string }[];
  readonly fixes: readonly Fix[];
  /** The reason of the waiver that turned this finding off; null for a finding that counts. */
  readonly waived: string | null;
}

/** A value that a block determines, as programs get it. */
export interface ReportedQuantity {
  readonly term: string | null;
  readonly name: string | null;
  readonly row: number | string | null;
  /** Where the note states it; null where no line does. */
  readonly span: Span | null;
  readonly value: string;
  readonly unit: string | null;
  readonly exact: boolean;
  readonly shown: string;
  readonly source: 'computed' | 'given' | 'observed';
}

export interface CheckedBlock {
  readonly name: string | null;
  readonly span: Span;
  readonly quantities: readonly ReportedQuantity[];
  /** How many there are in it, and in the prose about it. */
  readonly claims: number;
}

/** All that a check of one note gives. Spans are offsets into the note's text. */
export interface CheckedNote {
  readonly blocks: readonly CheckedBlock[];
  /** In the order of their places; waived ones included. */
  readonly findings: readonly Finding[];
}
