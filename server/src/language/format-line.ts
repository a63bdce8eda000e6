import { tokenize } from './lexer.ts';
import type { Edit } from './problem.ts';
import type { FenceLine, Span, Token } from './syntax.ts';

/** What stands behind a statement's name: it records, or it claims. */
export type StatementSign = ':' | '=';

/** A line while its gaps are being looked at. */
interface Line {
  readonly line: FenceLine;
  readonly tokens: readonly Token[];
  readonly signs: ReadonlyMap<number, StatementSign>;
  readonly values: readonly Span[];
}

/**
 * The edits that set one space around a line's signs and operators, write `×` for `*` and `x`, and mend the sign behind
 * a name.
 *
 *     LC=S-V  =  0.5 mm - 0.48mm        LC = S-V = 0.5 mm - 0.48mm
 *
 * None where the line would then be taken apart differently. Whether `S-V` is a name with a hyphen is not decided
 * here, nor what a slash means, so both stay as typed.
 */
export function lineSpacing(
  line: FenceLine,
  signs: ReadonlyMap<number, StatementSign>,
  values: readonly Span[],
): readonly Edit[] {
  // Between the marks of a formula in LaTeX, blanks are the writer's.
  if (/[$\\`]/.test(line.text)) return [];
  const { tokens } = tokenize(line.text, line.start);
  const all: Line = { line, tokens, signs, values };
  const edits: Edit[] = [];
  for (const [index, token] of tokens.entries()) {
    const written = writtenToken(all, index);
    if (written !== null && written !== sourceOf(all, token.span))
      edits.push({ span: token.span, newText: written });
    const next = tokens[index + 1];
    if (next === undefined) break;
    const gap = { start: token.span.end, end: next.span.start };
    const typed = sourceOf(all, gap);
    const wanted = /^[ \t]*$/.test(typed) ? wantedGap(all, index, typed) : null;
    if (wanted !== null && wanted !== typed) edits.push({ span: gap, newText: wanted });
  }
  return edits.length > 0 && isReadAlike(all, edits) ? edits : [];
}

/** What stands for a token from now on; null where it stays. */
function writtenToken(all: Line, index: number): string | null {
  const token = all.tokens[index]!;
  const sign = all.signs.get(token.span.start);
  if (sign !== undefined) return /^[:=]$/.test(sourceOf(all, token.span)) ? sign : null;
  const isTimes = token.text === '×' && token.kind === 'operator' && isBinary(all, index);
  return isTimes && /^[*xX✕✖]$/.test(sourceOf(all, token.span)) ? '×' : null;
}

/** The gap that should be behind a token; null where any may be. */
function wantedGap(all: Line, index: number, typed: string): string | null {
  const [token, next] = [all.tokens[index]!, all.tokens[index + 1]!];
  const nextSign = all.signs.get(next.span.start);
  // A lone sign at the line's start would become a bullet.
  if (nextSign !== undefined) return isOperator(token, /^[-+×]$/) ? null : nextSign === ':' ? '' : ' ';
  const sign = all.signs.get(token.span.start);
  // `10:30` is no name with its value.
  if (sign === ':' && typed === '' && next.kind === 'number' && all.tokens[index - 1]?.kind === 'number')
    return null;
  if (sign !== undefined) return isOperator(next, /^[=≈:]$/) ? null : ' ';
  if (!isInValue(all, token) || !isInValue(all, next)) return null;
  if (isEquals(all, index) || isEquals(all, index + 1)) return ' ';
  if (isBinary(all, index) || isBinary(all, index + 1)) return ' ';
  // A space between two numbers may set digits apart in groups.
  const isPlain = typed === ' ' || typed === '' || (token.kind === 'number' && next.kind === 'number');
  return isPlain ? null : ' ';
}

function isInValue({ values }: Line, { span }: Token): boolean {
  let low = 0;
  let high = values.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (values[middle]!.end < span.end) low = middle + 1;
    else high = middle;
  }
  const value = values[low];
  return value !== undefined && value.start <= span.start;
}

function isEquals(all: Line, index: number): boolean {
  const is = (at: number): boolean => {
    const token = all.tokens[at];
    return token?.kind === 'operator' && /^[=≈]$/.test(sourceOf(all, token.span));
  };
  return is(index) && !is(index - 1) && !is(index + 1);
}

/** Whether a sign of reckoning stands between two things to reckon with. */
function isBinary(all: Line, index: number): boolean {
  const [before, token, after] = [all.tokens[index - 1], all.tokens[index], all.tokens[index + 1]];
  if (before === undefined || token === undefined || after === undefined) return false;
  if (token.kind !== 'operator' || !['+', '-', '×', '±'].includes(token.text)) return false;
  if (!/^(?:[-+*xX×✕✖±−]|\+\/-)$/.test(sourceOf(all, token.span))) return false;
  if (!isInValue(all, before) || !isInValue(all, after)) return false;
  const isSigned = token.text === '×' || token.text === '±';
  if (!endsOperand(before) || !(beginsOperand(after) || (isSigned && /^[-+]$/.test(after.text))))
    return false;
  if (isSigned || token.spaced || after.spaced) return true;
  // `a-b` may be one name, and `s-1` a unit.
  if (before.kind !== 'word' || token.text === '+') return true;
  return after.kind === 'number' && all.tokens[index + 2]?.kind === 'word';
}

function isOperator({ kind, text }: Token, which: RegExp): boolean {
  return kind === 'operator' && which.test(text);
}

function endsOperand({ kind, text }: Token): boolean {
  return kind === 'operator' ? text === ')' : true;
}

function beginsOperand({ kind, text }: Token): boolean {
  return kind === 'operator' ? text === '(' : kind === 'number' || kind === 'word';
}

function sourceOf({ line }: Line, { start, end }: Span): string {
  return line.text.slice(start - line.start, end - line.start);
}

/** Whether the edited line is taken apart into the same pieces, but for the signs that were mended. */
function isReadAlike({ line, tokens, signs }: Line, edits: readonly Edit[]): boolean {
  let text = '';
  let from = 0;
  for (const { span, newText } of edits) {
    text += line.text.slice(from, span.start - line.start) + newText;
    from = span.end - line.start;
  }
  const again = tokenize(text + line.text.slice(from), 0);
  return (
    again.tokens.length === tokens.length &&
    again.tokens.every((token, index) => {
      const before = tokens[index]!;
      return token.kind === before.kind && (token.text === before.text || signs.has(before.span.start));
    })
  );
}
