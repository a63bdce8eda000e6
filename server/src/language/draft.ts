import type { FenceHeader } from './fence-header.ts';
import type { ErrorRecord } from './interpret-change.ts';
import { withoutLines } from './line-edits.ts';
import type {
  Claim,
  Closed,
  ErrorRule,
  Given,
  Observation,
  Option,
  OwnRecord,
  Question,
  Row,
  ScaleRecord,
  SentenceRecord,
  Stated,
  Waiver,
} from './measurement.ts';
import type { nameTable } from './name-table.ts';
import type { NameContext } from './names.ts';
import type { NumberedChoice } from './numbered-choices.ts';
import type { Statement } from './parser.ts';
import type { Edit, Fix, Problem } from './problem.ts';
import type { RuleName } from './rule-names.ts';
import type { Fence, Span } from './syntax.ts';
import type { ComputedTerm, ObservableTerm, ScaleTerm } from './term-names.ts';
import { findTerm } from './terms.ts';

/** A measurement while its statements are being read. Only `interpret` and its parts see it. */
export interface Draft {
  readonly fence: Fence;
  readonly header: FenceHeader;
  readonly names: NameContext;
  /** All blocks of the note, for somebody who names none of them. */
  readonly blockNames: readonly string[];
  readonly table: ReturnType<typeof nameTable>;
  readonly problems: Problem[];
  instrument: string | null;
  readonly scales: ScaleRecord[];
  readonly counts: Map<ScaleTerm, Stated>;
  runsBackward: boolean;
  range: { readonly from: Stated; readonly to: Stated; readonly span: Span } | null;
  readonly readings: Map<ObservableTerm, Observation>;
  readonly rows: Row[];
  readonly columns: Set<string>;
  readonly closed: Closed[];
  readonly givens: Map<ComputedTerm, Given>;
  readonly own: Map<string, OwnRecord>;
  /** Errors recorded on lines of their own: `delta a: 0.2 cm`. */
  readonly errorRecords: ErrorRecord[];
  errorRule: { readonly rule: ErrorRule; readonly span: Span } | null;
  coverageFactor: Stated | null;
  uses: { readonly name: string; readonly span: Span } | null;
  readonly claims: Claim[];
  /** What is claimed of numbers alone: `24 mm + 0.6 mm = 24.6 mm`, `1 in = 25.4 mm`. */
  readonly sums: Claim[];
  /** Observables typed with an equals sign: records unless the rest of the block determines them. */
  readonly typedAsClaims: Claim[];
  find: Question['find'];
  readonly options: Option[];
  /** The choices that numbers name, by their statements. */
  choices: ReadonlyMap<Statement, NumberedChoice>;
  answer: Question['answer'];
  readonly waivers: Waiver[];
  /** Where each thing was first recorded, by its name. */
  readonly recorded: Map<string, Span>;
  readonly broken: Set<string>;
  readonly unread: Set<string>;
  /** Sentences that could not be read, with what they may record. */
  readonly sentences: { readonly span: Span; readonly may: SentenceRecord }[];
  readonly halfWaived: Set<RuleName>;
  /** The edits that make rows of a table of the last numbered readings that stand together. */
  rowEdits: Edit[];
  /** Where a statement is being read as its first fix would write it; null for statements as typed. */
  mending: Span | null;
  /** Reads one more statement into the draft. */
  readAgain: (statement: Statement) => void;
  /** Whether the block speaks of a screw, so that main means linear. */
  readonly isScrew: boolean;
  readonly hasVernier: boolean;
}

export function report(
  draft: Draft,
  rule: RuleName,
  span: Span,
  message: string,
  fixes: readonly Fix[] = [],
  related: Problem['related'] = [],
): void {
  // What is read as its first fix would write it is reported already, and has no text of its own to mend.
  if (draft.mending !== null && rule === 'not-plain') return;
  draft.problems.push({ rule, span, message, fixes: draft.mending === null ? fixes : [], related });
}

/**
 * Notes what a line was to record that could not be read, broken or misspelt: what rests on it is neither right nor wrong.
 *
 * That line is reported where it stands.
 */
export function leaveUnread(draft: Draft, ...names: readonly string[]): void {
  for (const name of names) {
    draft.broken.add(name);
    draft.unread.add(name);
  }
}

/** A fix that puts other text in a place. */
export function replaceFix(title: string, span: Span, newText: string, sure: boolean): Fix {
  return { title, edits: [{ span, newText }], sure };
}

/** Notes that a thing is recorded; false, with a finding, when it already was: the first record stands. */
export function recordOnce(draft: Draft, what: string, span: Span): boolean {
  const before = draft.recorded.get(what);
  if (before === undefined) {
    draft.recorded.set(what, span);
    return true;
  }
  const named = findTerm(what)?.name === what ? `the ${what}` : what;
  report(
    draft,
    'duplicate-name',
    span,
    `${what === 'uses' ? 'another block to use' : named} is already recorded above, so this second record is not used; keep the one that is meant`,
    leaveOutFixes(draft, span, 'record'),
    [{ span: before, message: what === 'uses' ? 'the first such line' : `the first record of ${named}` }],
  );
  return false;
}

/** Takes the second of two alike out, which is not used; none where it shares its line. */
export function leaveOutFixes(draft: Draft, span: Span, what: string): readonly Fix[] {
  const edit = draft.mending === null ? withoutLines(draft.fence, span) : null;
  return edit === null ? [] : [{ title: `Leave out this second ${what}`, edits: [edit], sure: false }];
}
