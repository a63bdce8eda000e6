import { readFenceHeader } from './fence-header.ts';
import { type Reading, readStretches } from './fences.ts';
import { type LaidPart, layOfParts } from './laid-parts.ts';
import type { NoteText } from './note-text.ts';
import { ownCodeSpan, ownComment, ownFence } from './own-fence.ts';
import { claimSearch } from './prose-claims.ts';
import type { CodeSpan, CommentLine, Fence } from './syntax.ts';

/** What was read from the start of one stretch up to the next one at whose start nothing is open. */
export interface Found {
  /** How many stretches that are. */
  readonly parts: number;
  readonly fences: readonly Fence[];
  readonly codeSpans: readonly CodeSpan[];
  readonly comments: readonly CommentLine[];
  readonly effort: number;
  readonly prose: number;
  /** The same at its place in the note. */
  placed: Placed | null;
}

export interface Placed {
  readonly at: number;
  readonly fences: readonly Fence[];
  readonly codeSpans: readonly CodeSpan[];
  readonly comments: readonly CommentLine[];
}

/** Most stretches hold nothing and leave nothing open. */
export const PLAIN: Found = {
  ...{ parts: 1, fences: [], codeSpans: [], comments: [], effort: 0, prose: 0, placed: null },
};

/** The same text with one kind of line break, every character in its place. */
export function plainOf(note: string): string {
  return note.includes('\r') ? note.replace(/\r\n/g, ' \n').replace(/\r/g, '\n') : note;
}

/** So many stretches are laid out for the reading at first; what an edit concerns is seldom more. */
const FEW = 32;

/** Reads single parts of a note, in their order; gives null where one of them has a problem. */
export function partReader({
  note,
  parts,
}: {
  readonly note: NoteText;
  readonly parts: readonly LaidPart[];
}): (index: number, at: number) => Found | null {
  let window: { readonly first: number; readonly reading: Reading } | null = null;
  let width = FEW;
  const open = (first: number, at: number): { readonly first: number; readonly reading: Reading } => {
    const lay = layOfParts(parts.slice(first, first + width), 0);
    const end = at + lay.stretches.at(-1)!.end;
    // One character more tells that the note goes on.
    const text = note.slice(at, Math.min(end + 1, note.length));
    const plain = plainOf(text);
    const reading: Reading = {
      ...{ note: text, plain, start: 0, lay, claims: claimSearch(plain, lay), mark: 0, effort: 0, prose: 0 },
      ...{ read: new Map(), fences: [], codeSpans: [], comments: [], problems: [], points: [] },
    };
    return { first, reading };
  };
  return (index, at) => {
    if (window === null || window.first + window.reading.lay.stretches.length <= index) {
      window = open(index, at);
      width *= 8;
    }
    const found = foundFrom(window.reading, index - window.first);
    if (found !== 'goes on') return found;
    width = parts.length;
    window = open(index, at);
    const all = foundFrom(window.reading, 0);
    return all === 'goes on' ? null : all;
  };
}

/** What is found from a stretch on; or that it goes on beyond all that is laid out. */
function foundFrom(reading: Reading, first: number): Found | null | 'goes on' {
  const { stretches } = reading.lay;
  const { start } = stretches[first]!;
  let end = reading.note.length;
  readStretches(reading, first, at => {
    if (at === start) return false;
    end = at;
    return true;
  });
  let behind = first;
  while (behind < stretches.length && stretches[behind]!.start < end) behind += 1;
  const { fences, codeSpans, comments, effort, prose, problems } = reading;
  const found: Found = {
    parts: behind - first,
    fences: fences
      .filter(fence => readFenceHeader(fence.info, 0).isMeasurement)
      .map(fence => ownFence(fence, start, reading.note)),
    codeSpans: codeSpans
      .filter(span => reading.claims.mayBe(span.text))
      .map(span => ownCodeSpan(span, start)),
    comments: comments.map(comment => ownComment(comment, start)),
    ...{ effort, prose, placed: null },
  };
  const isGood = problems.length === 0;
  forget(reading);
  if (!isGood) return null;
  if (stretches[behind - 1]!.end < end) return 'goes on';
  return found.parts === 1 && effort === 0 && prose === 0 ? PLAIN : found;
}

/** Makes a reading ready for the next part; how far it has come in the note stays. */
function forget(reading: Reading): void {
  const { fences, codeSpans, comments, problems, points } = reading;
  for (const list of [fences, codeSpans, comments, problems, points]) list.length = 0;
  reading.read.clear();
  reading.effort = 0;
  reading.prose = 0;
}
