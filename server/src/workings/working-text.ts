import type { NoteCheck } from '../checks/note-check.ts';
import type { Derivation } from '../engine/derivation.ts';
import { claimLine } from '../render/derivation-lines.ts';
import { derivationMarkdown } from '../render/derivation-markdown.ts';
import { derivationText } from '../render/derivation-text.ts';
import { blockWorkings, type WorkingOptions } from './working.ts';

/** How a working is written: as lines of a block, as Markdown with math, as plain text. */
export type WorkingForm = 'lines' | 'markdown' | 'text';

/**
 * The whole working of a block in one form, without a final line break; empty where there is nothing to work out, or
 * nothing of it can be.
 */
export function workingText(
  note: NoteCheck,
  block: number,
  form: WorkingForm,
  options: WorkingOptions,
): string {
  const derivations = blockWorkings(note, block, options).map(({ derivation }) => derivation);
  switch (form) {
    case 'lines':
      return derivations.flatMap(claimLines).join('\n');
    case 'markdown':
      return derivationMarkdown(derivations);
    case 'text':
      return derivationText(derivations);
  }
}

/** The worked solution of a block as Markdown, as it is put below the block. */
export function workingMarkdown(note: NoteCheck, block: number, options: WorkingOptions): string {
  return workingText(note, block, 'markdown', options);
}

/** The steps of a derivation that a block can claim, each as one line. */
function claimLines({ steps }: Derivation): readonly string[] {
  return steps.flatMap(step => claimLine(step) ?? []);
}
