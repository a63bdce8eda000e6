import { withEdits } from '../actions/settled-edits.ts';
import type { NoteCheck } from '../checks/note-check.ts';
import { blockOfComment, workingState } from '../checks/working-state.ts';
import { blockCard } from '../figures/block-card.ts';
import { blockFigure } from '../figures/block-figure.ts';
import { figureNames } from '../figures/figure-names.ts';
import { imageLine } from '../figures/insert-figure.ts';
import { readNote } from '../language/fences.ts';
import { partsOfClaim } from '../language/interpret-prose.ts';
import { lineBreakOf } from '../language/line-edits.ts';
import { tokensSpan } from '../language/parser.ts';
import type { Edit } from '../language/problem.ts';
import type { WorkingComment } from '../language/working-comments.ts';
import { cardMarkdown } from '../render/card-markdown.ts';
import { isBlankBelow, prefixed } from '../workings/below-block.ts';
import { workingMarkdown } from '../workings/working-text.ts';
import { movedLinks } from './moved-links.ts';

export interface RenderedNote {
  readonly text: string;
  readonly figures: readonly { readonly file: string; readonly svg: string }[];
  /** Why it must not be written; null where it may. */
  readonly trouble: string | null;
}

interface Rendering {
  /** Whether all that gives the answers away is left out. */
  readonly question: boolean;
  /** Begins the names of the figures, so that those of several notes can stand together. */
  readonly before: string;
  /** Where the figures stand, from the note: `figures`. */
  readonly folder: string;
  /** The way back from where it is put to where the note stands, for what it links to: `../bench`; empty for the same folder. */
  readonly back: string;
}

/**
 * A note with each block as a card, its working as math and its figure as an image; the prose stays as it is, but that
 * relative links and images lead to the same files from where the note is put.
 *
 * A working that stands below its block and still fits is kept, for its words may have been changed by hand. In a
 * question no working and no claim is left, those in the prose are asked for instead.
 */
export function renderedNote(note: NoteCheck, rendering: Rendering): RenderedNote {
  const { question } = rendering;
  if (question && note.comments.some(({ end }) => end === null))
    return {
      text: '',
      figures: [],
      trouble:
        'nobody can tell where one of its workings ends, so it would give an answer away (`leastwise check` says which)',
    };
  const figures: { file: string; svg: string }[] = [];
  const edits: Edit[] = [
    ...note.comments.flatMap(comment => commentEdits(note, comment, question)),
    ...(question ? proseEdits(note) : []),
  ];
  const style = question ? 'question' : 'worked';
  for (const { block, file } of figureNames(note, {
    style,
    rows: false,
    stem: rendering.before,
    before: rendering.before,
  })) {
    const figure = blockFigure(note, block, { style, row: null, small: false, paper: true });
    if (figure !== null) figures.push({ file, svg: figure.svg });
    const image = figure === null ? [] : ['', imageLine(figure.alternative, `${rendering.folder}/${file}`)];
    const working = question || keepsWorking(note, block) ? '' : workingMarkdown(note, block, { way: null });
    const lines = [
      ...cardMarkdown(blockCard(note, block, question)),
      ...image,
      ...(working === '' ? [] : ['', ...working.split('\n')]),
    ];
    edits.push(blockEdit(note, block, lines[0] === '' ? lines.slice(1) : lines));
  }
  const moved = movedLinks(note.text, rendering.back);
  if (moved === null) return { text: '', figures: [], trouble: TOO_MUCH };
  const links = moved.filter(
    ({ span }) => !edits.some(edit => edit.span.start < span.end && span.start < edit.span.end),
  );
  return { text: withEdits(note.text, [...edits, ...links]), figures, trouble: null };
}

const TOO_MUCH =
  'it is too large, or nested too deeply, for its relative links to be found, which would lead nowhere from there';

/** Lines in the place of a block, with blank ones around them: a table begins no paragraph's next line. */
function blockEdit(note: NoteCheck, block: number, lines: readonly string[]): Edit {
  const { fence } = note.measurements[block]!;
  const { text } = note;
  const { start } = fence.span;
  const end = fence.closingEnd ?? fence.span.end;
  const isBelowWords = !/(?:^|[\r\n])[ \t>]*(?:\r\n|\r|\n)[ \t>]*$|^[ \t>]*$/.test(
    text.slice(Math.max(0, start - 200), start),
  );
  const isFirstInItem = /(?:^|[\r\n])[ \t>]*(?:[-*+]|\d+[.)])[ \t>]+$/.test(
    text.slice(Math.max(0, start - 200), start),
  );
  const all = [
    ...(isBelowWords && !isFirstInItem ? [''] : []),
    ...lines,
    ...(isBlankBelow(text, end) ? [] : ['']),
  ];
  const newText = prefixed(all, fence.prefix).join(lineBreakOf(text, fence));
  // The line of the fence has its prefix already.
  return {
    span: { start, end },
    newText:
      all[0] === '' ? newText.slice(fence.prefix.trimEnd().length) : newText.slice(fence.prefix.length),
  };
}

/** Figures are drawn anew; a working is left out where it is drawn up anew, or where it tells the answer. */
function commentEdits(note: NoteCheck, comment: WorkingComment, question: boolean): readonly Edit[] {
  const { kind, opening, end } = comment;
  if (end === null) return [];
  const isKept = kind === 'working' && !question && workingState(note, comment).kind !== 'stale';
  return isKept ? [] : [{ span: { start: opening.start, end: end.end }, newText: '' }];
}

/** Whether a block has a working below it that stays. */
function keepsWorking(note: NoteCheck, block: number): boolean {
  return note.comments.some(
    comment =>
      comment.kind === 'working' &&
      blockOfComment(note, comment) === block &&
      workingState(note, comment).kind !== 'stale',
  );
}

/** What the prose claims is asked for instead, of whatever block: a name may be misspelt. */
function proseEdits({ text }: NoteCheck): readonly Edit[] {
  return readNote(text).codeSpans.flatMap((span): readonly Edit[] => {
    const right = partsOfClaim(span)?.right ?? [];
    return right.length === 0 ? [] : [{ span: tokensSpan(right), newText: '?' }];
  });
}
