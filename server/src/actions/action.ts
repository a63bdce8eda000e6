import type { CheckedNote, Finding } from '../checks/finding.ts';
import type { NoteCheck } from '../checks/note-check.ts';
import type { Edit } from '../language/problem.ts';
import type { Span } from '../language/syntax.ts';

/** Something that can be done to a note at one key, on offer where the cursor stands. */
export interface Action {
  /** Says what happens, as a heading: `Write 2.484 cm`, `Insert the working below the block`. */
  readonly title: string;
  readonly kind: 'quickfix' | 'refactor' | 'refactor.rewrite';
  /** The finding that it mends; null for what is always on offer. */
  readonly finding: Finding | null;
  /** Why it cannot be done here, where one would look for it; left out by what can be done. */
  readonly unable?: string;
  /** Whether it is surely what was meant. */
  readonly isSure: boolean;
  /** The edits, worked out when they are asked for; empty where there is nothing to change any more. */
  edits(): readonly Edit[];
  /** A file that is written beside the note, over one of the same name; left out by actions that write none. */
  newFile?(): { readonly name: string; readonly content: string } | null;
}

/** A note as it stands in the editor, with all that is known of it. */
export interface ActionContext {
  readonly text: string;
  readonly note: NoteCheck;
  readonly checked: CheckedNote;
  /** The selection, or the cursor. */
  readonly span: Span;
  /** The note's name without folder and ending, where files can be written beside it. */
  readonly noteName?: string | null;
}
