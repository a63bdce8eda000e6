import { withEdits } from '../../actions/settled-edits.ts';
import type { Edit } from '../../language/problem.ts';

/** How many lines that stay are shown above and below. */
const CONTEXT = 3;

/** Lines of the note from `first` on (0 for the first), and what takes their place. */
interface Change {
  readonly first: number;
  readonly old: readonly string[];
  readonly made: readonly string[];
}

/**
 * What edits do to a note, as a unified diff that `patch -p0` and `git apply -p0` take. Its lines are those between line
 * feeds, byte for byte; carriage returns and a missing last line feed are kept. Empty where nothing changes.
 *
 * The edits say which lines they touch, so nothing has to be searched for, however large the note is.
 */
export function unifiedDiff(path: string, text: string, edits: readonly Edit[]): string {
  const changes = changesOf(text, edits);
  if (changes.length === 0) return '';
  const lines = linesOf(text);
  const name = diffName(path);
  let diff = `--- ${name}\n+++ ${name}\n`;
  let shift = 0;
  for (const hunk of hunksOf(changes)) {
    diff += hunkText(lines, hunk, shift);
    for (const { old, made } of hunk) shift += made.length - old.length;
  }
  return diff;
}

/** The edits as whole lines, in their order; edits of one line, or of lines below each other, are one change. */
function changesOf(text: string, edits: readonly Edit[]): readonly Change[] {
  const regions: { start: number; end: number; edits: Edit[] }[] = [];
  for (const edit of [...edits].sort((a, b) => a.span.start - b.span.start)) {
    const start = lineStart(text, edit.span.start);
    const end = lineEnd(text, edit.span.end);
    const last = regions.at(-1);
    if (last !== undefined && start <= last.end) {
      last.end = Math.max(last.end, end);
      last.edits.push(edit);
    } else regions.push({ start, end, edits: [edit] });
  }
  const changes: Change[] = [];
  let line = 0;
  let counted = 0;
  for (const { start, end, edits: its } of regions) {
    line += lineFeedsIn(text, counted, start);
    counted = start;
    const moved = its.map(({ span, newText }) => ({
      span: { start: span.start - start, end: span.end - start },
      newText,
    }));
    const piece = text.slice(start, end);
    const change = trimmed({ first: line, old: linesOf(piece), made: linesOf(withEdits(piece, moved)) });
    if (change.old.length > 0 || change.made.length > 0) changes.push(change);
  }
  return changes;
}

/** A change without the lines at both its ends that stay as they are. */
function trimmed({ first, old, made }: Change): Change {
  const shorter = Math.min(old.length, made.length);
  let above = 0;
  while (above < shorter && old[above] === made[above]) above++;
  let below = 0;
  while (below < shorter - above && old.at(-1 - below) === made.at(-1 - below)) below++;
  return {
    first: first + above,
    old: old.slice(above, old.length - below),
    made: made.slice(above, made.length - below),
  };
}

/** Changes that are so near to each other that they share the lines between them. */
function hunksOf(changes: readonly Change[]): readonly (readonly [Change, ...Change[]])[] {
  const hunks: [Change, ...Change[]][] = [];
  for (const change of changes) {
    const hunk = hunks.at(-1);
    const last = hunk?.at(-1);
    if (hunk !== undefined && last !== undefined && change.first - behind(last) <= 2 * CONTEXT)
      hunk.push(change);
    else hunks.push([change]);
  }
  return hunks;
}

function behind({ first, old }: Change): number {
  return first + old.length;
}

/** `shift` is by how many lines the new note is ahead of the old one here. */
function hunkText(lines: readonly string[], hunk: readonly [Change, ...Change[]], shift: number): string {
  const from = Math.max(0, hunk[0].first - CONTEXT);
  const to = Math.min(lines.length, behind(hunk.at(-1)!) + CONTEXT);
  let body = '';
  let at = from;
  let made = to - from;
  for (const change of hunk) {
    body += marked(' ', lines.slice(at, change.first)) + marked('-', change.old) + marked('+', change.made);
    at = behind(change);
    made += change.made.length - change.old.length;
  }
  body += marked(' ', lines.slice(at, to));
  return `@@ -${range(from, to - from)} +${range(from + shift, made)} @@\n${body}`;
}

/** Of no lines the one before is named. */
function range(from: number, count: number): string {
  return `${count === 0 ? from : from + 1}${count === 1 ? '' : `,${count}`}`;
}

function marked(sign: string, lines: readonly string[]): string {
  return lines
    .map(line => sign + (line.endsWith('\n') ? line : `${line}\n\\ No newline at end of file\n`))
    .join('');
}

function linesOf(text: string): readonly string[] {
  return text.match(/[^\n]*\n|[^\n]+$/g) ?? [];
}

function lineStart(text: string, offset: number): number {
  return offset === 0 ? 0 : text.lastIndexOf('\n', offset - 1) + 1;
}

function lineEnd(text: string, offset: number): number {
  const lineFeed = text.indexOf('\n', offset);
  return lineFeed === -1 ? text.length : lineFeed + 1;
}

function lineFeedsIn(text: string, start: number, end: number): number {
  let count = 0;
  for (let at = text.indexOf('\n', start); at !== -1 && at < end; at = text.indexOf('\n', at + 1)) count++;
  return count;
}

/** What a name must not hold as it is: a quotation mark, a backslash, and signs that a terminal obeys. */
const UNSAFE_IN_A_NAME = /["\\\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u;

/** A path as diffs have it: behind one with spaces stands a tab, and one with odd signs is quoted as in C. */
function diffName(path: string): string {
  if (!UNSAFE_IN_A_NAME.test(path)) return path.includes(' ') ? `${path}\t` : path;
  let quoted = '';
  for (const sign of path) {
    if (sign === '"' || sign === '\\') quoted += `\\${sign}`;
    else if (!UNSAFE_IN_A_NAME.test(sign)) quoted += sign;
    else for (const byte of Buffer.from(sign)) quoted += `\\${byte.toString(8).padStart(3, '0')}`;
  }
  return `"${quoted}"`;
}
