import { withEdits } from '../actions/settled-edits.ts';
import { placeAt } from '../checks/line-index.ts';
import { type WorkingState, workingState } from '../checks/working-state.ts';
import type { Edit } from '../language/problem.ts';
import { insertLinesEdits } from '../workings/insert-lines.ts';
import { insertWorkingEdits, isKept, renewWorkingEdits, workingBelow } from '../workings/insert-working.ts';
import { workingText } from '../workings/working-text.ts';
import { complain, type ExitStatus } from './complain.ts';
import { escapeControls } from './escape-controls.ts';
import { standardOutput } from './output.ts';
import type { WorkOptions } from './work.ts';
import { blockName, tellWhatIsMissing, type Work } from './work-lacks.ts';
import { writeNote } from './write-note.ts';

/** What is done to a note, with a sentence for each block or working that it concerns. */
interface Writing {
  readonly edits: readonly Edit[];
  readonly said: readonly string[];
  /** Whether something that was asked for could not be done. */
  readonly isShort: boolean;
}

/**
 * Writes workings into the note that they were asked for. A note from standard input goes to standard output with its
 * workings in it, and the sentences to standard error.
 */
export async function writeWorkings(work: Work, options: WorkOptions): Promise<ExitStatus> {
  const form = options.form ?? 'markdown';
  if (form === 'text' || (form === 'lines' && options.write === 'stale')) {
    complain(
      options.write === 'stale'
        ? 'stale workings are renewed as Markdown: leave --as out'
        : 'a note takes a working as Markdown or as lines: --as text is for reading',
    );
    return 2;
  }
  const writing =
    options.write === 'stale'
      ? renewed(work, options)
      : form === 'lines'
        ? asLines(work, options)
        : below(work, options);
  const { path, text } = work.target;
  const written = withEdits(text, writing.edits);
  const output = standardOutput();
  if (path === null) await output.write(written);
  else if (writing.edits.length > 0) {
    const trouble = writeNote(path, text, written);
    if (trouble !== null) {
      complain(trouble);
      return 2;
    }
  }
  for (const sentence of writing.said) {
    if (path === null) complain(sentence);
    else await output.write(`${escapeControls(sentence)}\n`);
  }
  const failure = await output.end();
  if (failure !== null) {
    complain(failure);
    return 2;
  }
  return writing.isShort ? 1 : 0;
}

/** The worked solution below each block. */
function below(work: Work, { way }: WorkOptions): Writing {
  const { note, blocks } = work;
  const edits: Edit[] = [];
  const said: string[] = [];
  const texts = blocks.map(block => workingText(note, block, 'markdown', { way }));
  let isShort = tellWhatIsMissing(work, texts);
  for (const [at, block] of blocks.entries()) {
    const name = blockName(work, block);
    const standing = workingBelow(note, block);
    const state = standing === null ? null : workingState(note, note.comments[standing]!);
    const made = insertWorkingEdits(note, block, { way });
    edits.push(...made);
    if (state === null) {
      if (texts[at] !== '') said.push(`${name}: working inserted`);
    } else if (made.length > 0) said.push(`${name}: its working was stale and is written anew`);
    else if (state.kind === 'fits') said.push(`${name}: its working still fits and is left as it stands`);
    else {
      said.push(`${name}: ${leftText(work, state)}`);
      isShort = true;
    }
  }
  return { edits, said, isShort };
}

/** Lines for what the blocks do not claim yet. */
function asLines(work: Work, { way }: WorkOptions): Writing {
  const { note, blocks } = work;
  const edits: Edit[] = [];
  const said: string[] = [];
  const texts = blocks.map(block => workingText(note, block, 'lines', { way }));
  const isShort = tellWhatIsMissing(work, texts);
  for (const [at, block] of blocks.entries()) {
    const made = insertLinesEdits(note, block, { way });
    edits.push(...made);
    if (made.length > 0) said.push(`${blockName(work, block)}: lines inserted`);
    else if (texts[at] !== '')
      said.push(`${blockName(work, block)}: it claims already all that can be worked out`);
  }
  return { edits, said, isShort };
}

/** Stale workings written anew; one that nobody can renew is told and left. */
function renewed(work: Work, { way }: WorkOptions): Writing {
  const { note, blocks, index } = work;
  const edits: Edit[] = [];
  const said: string[] = [];
  let isShort = false;
  for (const [at, comment] of note.comments.entries()) {
    if (comment.kind !== 'working') continue;
    const state = workingState(note, comment);
    const line = placeAt(index, comment.opening.start).line;
    if (state.kind === 'no-block') {
      if (blocks.length < note.fences) continue;
      said.push(`line ${line}: the block of this working is gone, so it is left as it stands`);
      isShort = true;
      continue;
    }
    if (state.block === null || !blocks.includes(state.block) || state.kind === 'fits') continue;
    const made = renewWorkingEdits(note, at, { way });
    edits.push(...made);
    const name = blockName(work, state.block);
    if (made.length > 0) said.push(`${name}: its working was stale and is written anew`);
    else {
      said.push(`${name}: ${leftText(work, state)}`);
      isShort = true;
    }
  }
  if (said.length === 0) said.push('no working is stale');
  return { edits, said, isShort };
}

function leftText({ note }: Work, state: Exclude<WorkingState, { readonly kind: 'fits' }>): string {
  switch (state.kind) {
    case 'unclear':
      return 'nobody can tell where its working ends, so it is left as it stands (`leastwise check` says why)';
    case 'stale':
      return isKept(note, state.block)
        ? 'its working is stale, but the block waives that, so it is left as it stands'
        : 'its working is stale, but nothing can be worked out any more, so it is left as it stands';
    case 'no-block':
      return 'the block of its working is gone, so it is left as it stands';
  }
}
