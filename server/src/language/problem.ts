import type { RuleName } from './rule-names.ts';
import type { Span } from './syntax.ts';

/** A text edit in the note. */
export interface Edit {
  readonly span: Span;
  readonly newText: string;
}

/** A way to mend a finding: one title, a few edits that belong together. */
export interface Fix {
  readonly title: string;
  readonly edits: readonly Edit[];
  /** Whether this is surely what was meant, so that "fix all" may apply it. */
  readonly sure: boolean;
}

/** Something a stage could not accept, as plain data; the rule of the same name reports it. */
export interface Problem {
  readonly rule: RuleName;
  readonly span: Span;
  /** What is stated, what is right, why: one breath, no final stop. */
  readonly message: string;
  readonly fixes: readonly Fix[];
  /** Another place that belongs to the problem (the contradicting line, the first of two records). */
  readonly related?: readonly { readonly span: Span; readonly message: string }[];
}
