import { readFenceHeader } from './fence-header.ts';
import { afterLineBreak, endOfLine } from './fence-lines.ts';
import type { CommentLine, Fence, NoteStructure, Span } from './syntax.ts';

/**
 * What stands below a block between two comment lines: its working, or a figure of it.
 *
 *     <!-- working: axle-sleeve 3f2a9c -->
 *     …
 *     <!-- end working -->
 */
export interface WorkingComment {
  readonly kind: 'working' | 'figure';
  /** The block's name as written; null where only the digest stands, for the nearest block above. */
  readonly name: string | null;
  /** Six hexadecimal digits in small letters; null where none stand. */
  readonly digest: string | null;
  /** `<!-- working: axle-sleeve 3f2a9c -->`. */
  readonly opening: Span;
  /** `<!-- end working -->`; null where none belongs to it. */
  readonly end: Span | null;
  /** Why nobody can tell how far it reaches, so that it must not be written over; null where that is plain. */
  readonly trouble: 'no-end' | 'two-ends' | 'end-elsewhere' | null;
  /** What each of its lines begins with: list indentation and quote marks. */
  readonly prefix: string;
  /** Where the block that it belongs to begins; null where the note has no such block. */
  readonly fenceStart: number | null;
}

/**
 * The workings and figures of a note, in its order.
 *
 * A comment of another kind that happens to begin alike (`<!-- working: on this -->`), with neither a digest nor the
 * name of a block, is none. Linear in the note.
 */
export function workingComments(note: string, structure: NoteStructure): readonly WorkingComment[] {
  const { comments = [], fences } = structure;
  if (comments.length === 0) return [];
  const found: WorkingComment[] = [];
  const lines = comments.flatMap(line => readLine(note, line) ?? []);
  const open = new Map<Kind, { readonly at: number; readonly ends: CommentLine[] }>();
  const close = (kind: Kind): void => {
    const begun = open.get(kind);
    const line = begun && lines[begun.at];
    open.delete(kind);
    if (line?.kind === 'opening') found.push(finished(note, line, begun!.ends));
  };
  const owner = ownerFinder(fences);
  for (const [at, line] of lines.entries()) {
    switch (line.kind) {
      case 'opening': {
        const fenceStart = owner(line);
        if (line.digest === null && fenceStart === null) break;
        close(line.of);
        lines[at] = { ...line, fenceStart };
        open.set(line.of, { at, ends: [] });
        break;
      }
      case 'end':
        open.get(line.of)?.ends.push(line.line);
        break;
    }
  }
  close('working');
  close('figure');
  return found.sort((a, b) => a.opening.start - b.opening.start);
}

type Kind = WorkingComment['kind'];

type Line =
  | {
      readonly kind: 'opening';
      readonly of: Kind;
      readonly line: CommentLine;
      readonly name: string | null;
      readonly digest: string | null;
      readonly fenceStart: number | null;
    }
  | { readonly kind: 'end'; readonly of: Kind; readonly line: CommentLine };

const OPENING = /^<!--[ \t]*(working|figure):[ \t]*(.*?)[ \t]*-->$/;
const END = /^<!--[ \t]*end[ \t]+(working|figure)[ \t]*-->$/;

function readLine(note: string, line: CommentLine): Line | null {
  const text = note.slice(line.span.start, line.span.end);
  const end = END.exec(text);
  if (end !== null) return { kind: 'end', of: end[1] as Kind, line };
  const opening = OPENING.exec(text);
  if (opening === null) return null;
  const [, of, said = ''] = opening;
  const digest = /(?:^|[ \t])([0-9a-f]{6})$/i.exec(said)?.[1] ?? null;
  const name = said.slice(0, said.length - (digest?.length ?? 0)).trim();
  return {
    ...{ kind: 'opening', of: of as Kind, line, fenceStart: null },
    name: name === '' ? null : name.replace(/[ \t]+/g, '-'),
    digest: digest?.toLowerCase() ?? null,
  };
}

function finished(
  note: string,
  { of, line, name, digest, fenceStart }: Extract<Line, { kind: 'opening' }>,
  ends: readonly CommentLine[],
): WorkingComment {
  const [end] = ends;
  const trouble =
    end === undefined
      ? 'no-end'
      : ends.length > 1
        ? 'two-ends'
        : isBeside(note, line, end)
          ? null
          : 'end-elsewhere';
  return {
    ...{ kind: of, name, digest, opening: line.span, trouble, prefix: line.prefix, fenceStart },
    end: trouble === null ? end!.span : null,
  };
}

/** Whether an end line stands in the same item of the same list, or the same quote, as the opening line. */
function isBeside(note: string, opening: CommentLine, end: CommentLine): boolean {
  if (opening.depth !== end.depth) return false;
  if (opening.depth === 0) return true;
  const { prefix } = opening;
  for (let at = endOfLine(note, opening.span.end); at < end.span.start; ) {
    const start = afterLineBreak(note, at);
    at = endOfLine(note, start);
    const line = note.slice(start, Math.min(start + prefix.length, at));
    const isBlank = prefix.startsWith(line) && prefix.trimEnd().length <= line.length;
    if (line !== prefix && !isBlank) return false;
  }
  return true;
}

/** Finds the block that an opening line belongs to: the one of its name, or the nearest above; asked in the note's order. */
function ownerFinder(fences: readonly Fence[]): (line: Extract<Line, { kind: 'opening' }>) => number | null {
  const byName = new Map<string, number>();
  for (const { info, span } of fences) {
    const name = readFenceHeader(info, 0).name?.toLowerCase();
    if (name !== undefined && !byName.has(name)) byName.set(name, span.start);
  }
  let above = 0;
  return ({ name, line }) => {
    if (name !== null) return byName.get(name.toLowerCase()) ?? null;
    while (above < fences.length && fences[above]!.span.end <= line.span.start) above += 1;
    return fences[above - 1]?.span.start ?? null;
  };
}

const WORDS = /<!--[ \t]*(?:end[ \t]+(?:working|figure)[ \t]*-->|(?:working|figure):)/y;

/** Whether a line can be the comment line of a working or a figure; `at` is where its text begins. */
export function isCommentLine(plain: string, at: number, end: number): boolean {
  if (!plain.startsWith('<!--', at)) return false;
  WORDS.lastIndex = at;
  return WORDS.test(plain) && WORDS.lastIndex <= end;
}

/** Whether a note without any block may hold such lines all the same. */
export function mayHoldComments(note: string): boolean {
  return note.includes('<!-- working:') || note.includes('<!-- figure:');
}

/** The comments in a block of HTML that are the comment lines of workings and figures. */
export function commentSpans(piece: string, start: number, end: number): readonly Span[] {
  const spans: Span[] = [];
  for (let at = start; piece.startsWith('<!--', at); ) {
    const close = piece.indexOf('-->', at + 4);
    if (close < 0 || end < close + 3) break;
    if (isCommentLine(piece, at, close + 3)) spans.push({ start: at, end: close + 3 });
    at = close + 3;
    while (at < end && (piece[at] === ' ' || piece[at] === '\t')) at += 1;
  }
  return spans;
}
