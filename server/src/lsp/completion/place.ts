import { tokenize } from '../../language/lexer.ts';
import type { Fence, FenceLine } from '../../language/syntax.ts';
import { isTableLine } from '../../language/table-line.ts';

/** What may be typed at a place of a block. `typed` is what stands there already, from `from` to the place. */
export type Place = { readonly from: number; readonly typed: string } /** Where a statement begins. */ & (
  | { readonly kind: 'line' }
  /** Behind `of`: a row, a block, a quantity; `base` is the name before it. */
  | { readonly kind: 'of'; readonly base: string }
  /** The value of a record. */
  | { readonly kind: 'value'; readonly left: string }
  /** A link of a claim; `isEmpty` where nothing of it is typed yet. */
  | { readonly kind: 'link'; readonly left: string; readonly isEmpty: boolean }
  /** Behind a number, of a record (what stands there is all that is known of it) or of a claim. */
  | { readonly kind: 'unit'; readonly left: string; readonly isRecord: boolean }
  /** The head of a column, and what stands in the heads before it. */
  | { readonly kind: 'head'; readonly heads: readonly string[] }
  /** A cell below a head. */
  | { readonly kind: 'cell'; readonly head: string }
);

/** Nobody who has typed more on a line waits for an offer. */
const MOST_TYPED = 1000;

/** Says what may be typed at a place of a block; null in comments, on its fences, and where nothing can be told. */
export function completionPlace(fence: Fence, offset: number): Place | null {
  const line = fence.lines.find(({ start, text }) => start <= offset && offset <= start + text.length);
  if (line === undefined) return null;
  const before = line.text.slice(0, offset - line.start);
  if (before.length > MOST_TYPED) return null;
  if (isTableLine(line) && before.includes('|')) return inTable(fence, line, before);
  const { comment } = tokenize(line.text, line.start);
  if (comment !== null && comment.start < offset) return null;
  const sign = /^[^:=≈]*?[:=≈]/.exec(before)?.[0];
  if (sign === undefined) return atLeft(line, before);
  const left = sign.slice(0, -1).trim();
  const right = before.slice(sign.length);
  const isRecord = sign.endsWith(':') && !/[=≈]/.test(right);
  const link = isRecord ? right : right.slice(Math.max(right.lastIndexOf('='), right.lastIndexOf('≈')) + 1);
  return atRight(line, before, link, left, isRecord);
}

function atLeft(line: FenceLine, before: string): Place {
  const typed = before.trimStart();
  const of = behindOf(line, before, typed);
  return of ?? { kind: 'line', typed, from: line.start + before.length - typed.length };
}

/** `vernier zero right, division 3`: a line is counted, not measured. */
const COUNTED = /\b(?:division|option|choice)s?\s+[\d.]+\s+\p{L}*$/iu;

const NAME_AT_END = /[\p{L}][\p{L}\p{N}_.′ -]*$/u;

function atRight(
  line: FenceLine,
  before: string,
  link: string,
  left: string,
  isRecord: boolean,
): Place | null {
  const at = (typed: string) => ({ typed, from: line.start + before.length - typed.length });
  const unit = /(?:^|[^\p{L}\p{N}_])[\d.]*\d\s+(\p{L}*)$/u.exec(link)?.[1];
  if (unit !== undefined) return COUNTED.test(link) ? null : { kind: 'unit', left, isRecord, ...at(unit) };
  const of = behindOf(line, before, link.trimStart());
  if (of !== null) return of;
  const text = link.trimStart();
  if (isRecord) return { kind: 'value', left, ...at(text) };
  const name = NAME_AT_END.exec(text)?.[0] ?? '';
  const rest = text.slice(0, text.length - name.length).trimEnd();
  // Behind a value or a closing bracket stands a sign, not a name.
  if (rest !== '' && !/[-+−×*·/÷(^,|]$/.test(rest)) return null;
  return { kind: 'link', left, isEmpty: text === '', ...at(name) };
}

function behindOf(line: FenceLine, before: string, text: string): Place | null {
  const match = /^(.*\p{L}.*) of ([^:=+×*/()]*)$/u.exec(text);
  if (match === null) return null;
  const [, base = '', typed = ''] = match;
  const name = NAME_AT_END.exec(base)?.[0] ?? base;
  return { kind: 'of', base: name.trim(), typed, from: line.start + before.length - typed.length };
}

function inTable(fence: Fence, line: FenceLine, before: string): Place | null {
  let first = fence.lines.indexOf(line);
  while (0 < first && isTableLine(fence.lines[first - 1]!)) first -= 1;
  const heads = cellsOf(fence.lines[first]!.text);
  const cells = before.split('|').slice(1);
  const typed = cells.at(-1)!.trimStart();
  const from = line.start + before.length - typed.length;
  if (fence.lines[first] === line) return { kind: 'head', heads: cellsOf(before).slice(0, -1), typed, from };
  const head = heads[cells.length - 1];
  if (head === undefined || /^[-:]+$/.test(typed)) return null;
  const unit = /(?:^|[^\p{L}\p{N}_])[\d.]*\d\s+(\p{L}*)$/u.exec(typed)?.[1];
  if (unit !== undefined)
    return {
      kind: 'unit',
      left: head,
      isRecord: true,
      typed: unit,
      from: line.start + before.length - unit.length,
    };
  return { kind: 'cell', head, typed, from };
}

function cellsOf(row: string): readonly string[] {
  const cells = row.split('|').map(cell => cell.trim());
  return cells.slice(1);
}
