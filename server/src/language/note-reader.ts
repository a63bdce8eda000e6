import { NOTHING, readNote } from './fences.ts';
import { markdownStart } from './front-matter.ts';
import { type LaidPart, laidAgain, laidParts } from './laid-parts.ts';
import { asNoteText, type NoteText } from './note-text.ts';
import { movedCodeSpan, movedComment, movedFence } from './own-fence.ts';
import { type Found, PLAIN, type Placed, partReader, plainOf } from './part-reader.ts';
import { MOST_EFFORT, MOST_PROSE } from './reading-limits.ts';
import type { CodeSpan, CommentLine, Fence, NoteStructure } from './syntax.ts';
import { mayHoldComments } from './working-comments.ts';

/**
 * Reads a note again and again while it is being written: each time only what an edit concerns, and `readNote` of the
 * rest as before.
 *
 * The note is kept as its stretches, with all places counted from their starts. An edit concerns the stretches that it
 * touches and those above it up to the last but one at whose start nothing was open. What was found further below
 * still holds wherever nothing is open at its start, also where it was swallowed by a comment or a fence for a while.
 */
export function noteReader(): (note: string | NoteText) => NoteStructure {
  let before: { readonly note: NoteText; readonly kept: KeptNote | null; readonly structure: NoteStructure } =
    {
      ...{ note: asNoteText(''), kept: null, structure: NOTHING },
    };
  return text => {
    if (before.note === text) return before.structure;
    const note = asNoteText(text);
    const now = (before.kept && edited(before.kept, note)) ?? keptNote(note);
    const found = now === null ? NOTHING : structureOf(now);
    // What is near the limits is read as a whole each time.
    const structure = found ?? readNote(note.whole());
    const holds = structure.fences.length > 0 || mayHoldOurs(note.whole());
    before = { note, kept: now && found && compact(now), structure: holds ? structure : NOTHING };
    return before.structure;
  };
}

function mayHoldOurs(note: string): boolean {
  return /measurement/i.test(note) || mayHoldComments(note);
}

/**
 * The same fences wherever they stand, for those of a structure: each the same object as long as nothing in it changes,
 * and another one for another text.
 */
export function unplacedFences(fences: readonly Fence[]): readonly Fence[] {
  return unplaced.get(fences) ?? fences;
}

const unplaced = new WeakMap<readonly Fence[], readonly Fence[]>();

/** A note as it was read. */
interface KeptNote {
  readonly note: NoteText;
  /** Where the Markdown begins, below front matter. */
  readonly start: number;
  readonly parts: Part[];
  /** How many parts there were when they were put together last. */
  readonly count: number;
}

/** A stretch, and what was read from its start on, if ever nothing was open there. */
interface Part extends LaidPart {
  found: Found | null;
}

function keptNote(note: NoteText): KeptNote | null {
  const whole = note.whole();
  if (!mayHoldOurs(whole)) return null;
  const plain = plainOf(whole);
  const start = markdownStart(plain);
  return { note, start, parts: laidParts(plain, start).map(asUnread), count: 0 };
}

function asUnread(part: LaidPart): Part {
  return { ...part, found: null };
}

/** The kept note with an edit made in it; null where it has to be read from the start. */
function edited(kept: KeptNote, note: NoteText): KeptNote | null {
  const change = note.changeSince(kept.note);
  if (change === null || change.start < kept.start || startAfter(kept, note) !== kept.start) return null;
  // Whoever holds them goes on with what is made of them here.
  const { parts } = kept;
  const first = partAbove(kept, change.start);
  // A stretch ends below a line break, so that none is cut apart.
  const plainSlice = (start: number, end: number): string => plainOf(note.slice(start, end));
  const { from, to, laid } = laidAgain({ length: note.length, plainSlice }, parts, first, change);
  for (let index = 0; index < from; index++) {
    const part = parts[index]!;
    if (part.found !== null && from < index + part.found.parts) part.found = null;
  }
  if (laid.length <= MOST_AT_ONCE) {
    parts.splice(from, to - from, ...laid.map(asUnread));
    return { ...kept, note };
  }
  const now = parts.slice(0, from).concat(laid.map(asUnread), parts.slice(to));
  return { ...kept, note, parts: now };
}

/** More parts than this are not handed to a function one by one. */
const MOST_AT_ONCE = 1000;

/** Where the Markdown begins in a note that did not change above where it began. */
function startAfter({ start }: KeptNote, note: NoteText): number {
  const mark = note.slice(0, 1) === '\uFEFF' ? 1 : 0;
  if (note.slice(mark, mark + 3) !== '---') return mark;
  return mark < start && note.slice(start - 1, start) === '\n' ? start : markdownStart(plainOf(note.whole()));
}

/** The last but one stretch that begins before a change, and at which nothing was open; else the first of the note. */
function partAbove(
  { start, parts }: KeptNote,
  change: number,
): { readonly from: number; readonly start: number } {
  let above = { from: 0, start };
  let last = above;
  for (let index = 0, at = start; index < parts.length && at < change; ) {
    above = last;
    last = { from: index, start: at };
    for (const next = index + parts[index]!.found!.parts; index < next; index++) at += parts[index]!.length;
  }
  return above;
}

/** What a kept note holds, reading what has not been read; null where that is too much to go on with. */
function structureOf(kept: KeptNote): NoteStructure | null {
  const { start, parts } = kept;
  const read = partReader(kept);
  const fences: Fence[] = [];
  const codeSpans: CodeSpan[] = [];
  const comments: CommentLine[] = [];
  const own: Fence[] = [];
  let [effort, prose] = [0, 0];
  for (let index = 0, at = start; index < parts.length; ) {
    const part = parts[index]!;
    if (part.found === PLAIN) {
      index += 1;
      at += part.length;
      continue;
    }
    part.found ??= read(index, at);
    if (part.found === null) return null;
    effort += part.found.effort;
    prose += part.found.prose;
    if (MOST_EFFORT / 2 < effort || MOST_PROSE / 2 < prose) return null;
    const placed = placedAt(part.found, at);
    putTo(own, part.found.fences);
    putTo(fences, placed.fences);
    putTo(codeSpans, placed.codeSpans);
    putTo(comments, placed.comments);
    for (const next = index + part.found.parts; index < next; index++) at += parts[index]!.length;
  }
  if (!parts.some(part => 0 <= part.lastBlock)) return NOTHING;
  unplaced.set(fences, own);
  return { fences, codeSpans, ...(comments.length === 0 ? {} : { comments }) };
}

/** Written out, for this is done for each part of a note at each letter. */
function putTo<Value>(list: Value[], more: readonly Value[]): void {
  for (let index = 0; index < more.length; index++) list.push(more[index]!);
}

/** So long may several stretches that hold nothing become together, to be passed over as one. */
const LONGEST_PLAIN = 2000;

/**
 * Puts stretches that hold nothing together with their neighbours, where there have come to be many. Nothing in them can
 * open or close a fence, so none that is opened above ends within one of them.
 */
function compact(kept: KeptNote): KeptNote {
  const { parts, count } = kept;
  if (parts.length <= 2 * count + 100) return kept;
  const together: Part[] = [];
  /** How long the part is that the next one may be put to; one that something above swallows stays as it is. */
  let above = LONGEST_PLAIN;
  for (let index = 0; index < parts.length; ) {
    const part = parts[index]!;
    if (isQuiet(part) && above + part.length <= LONGEST_PLAIN) {
      above += part.length;
      together.push({ ...part, length: part.length + together.pop()!.length });
      index += 1;
    } else {
      above = isQuiet(part) ? part.length : LONGEST_PLAIN;
      for (const next = index + part.found!.parts; index < next; index++) together.push(parts[index]!);
    }
  }
  return { ...kept, parts: together, count: together.length };
}

function isQuiet({ found, lastBlock, lastOpening, marks }: Part): boolean {
  return found === PLAIN && lastBlock < 0 && lastOpening < 0 && marks.length === 0;
}

function placedAt(found: Found, at: number): Placed {
  if (found.placed?.at === at) return found.placed;
  const placed = {
    at,
    fences: found.fences.map(fence => movedFence(fence, at)),
    codeSpans: found.codeSpans.map(span => movedCodeSpan(span, at)),
    comments: found.comments.map(comment => movedComment(comment, at)),
  };
  found.placed = placed;
  return placed;
}
