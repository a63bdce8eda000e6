import type { Span } from '../language/syntax.ts';

/** Whole lines of prose that somebody has selected, without what a list or a quote puts before them. */
export interface SelectedLines {
  /** From the beginning of the first line to the end of the last, its line break not included. */
  readonly span: Span;
  /** What the first line of something that takes their place begins with, and what its other lines begin with. */
  readonly first: string;
  readonly others: string;
  /** What a blank line beside them consists of. */
  readonly blank: string;
  readonly texts: readonly string[];
}

const QUOTE = /[ \t]{0,3}>[ \t]?/y;
const MARKER = /^([ \t]*)((?:[-*+•]|\d{1,3}[.)])[ \t]+)(?=\S)/;

/**
 * The lines that a selection meets, without blank ones at its ends; null where it holds nothing but these.
 *
 *     > 1. Main scale: 1 cm = 10 MSD        first "> 1. ", others ">    "
 *     >    LC = 0.01 cm                     texts without either
 *
 * Several items of a list are taken out of it: a bullet before each line is dress.
 */
export function selectedLines(text: string, { start, end }: Span): SelectedLines | null {
  const typed = linesIn(text, start, start < end && isLineStart(text, end) ? end - 1 : end);
  const from = typed.findIndex(({ words }) => words !== '');
  const to = typed.findLastIndex(({ words }) => words !== '');
  if (from === -1) return null;
  const lines = typed.slice(from, to + 1);
  const depth = Math.min(...lines.flatMap(({ words, line }) => (words === '' ? [] : [quoteDepth(line)])));
  const quote = lines[0]!.line.slice(0, behindQuote(lines[0]!.line, depth));
  const inside = withoutUnnamedFence(lines.map(({ line }) => line.slice(behindQuote(line, depth)).trimEnd()));
  const span = { start: lines[0]!.start, end: lines[lines.length - 1]!.end };
  const blank = quote.trimEnd();
  const filled = inside.filter(line => line !== '');
  // Comments are no solution, least of all those around a working.
  if (filled.every(line => /^[ \t]*<!--.*-->$/.test(line))) return null;
  const markers = inside.map(line => MARKER.exec(line));
  const item = markers[0]?.[0] ?? '';
  const indent = ' '.repeat(item.length);
  if (item !== '' && inside.slice(1).every(line => line === '' || line.startsWith(indent))) {
    const texts = inside.map(line => line.slice(item.length));
    return { span, first: quote + item, others: quote + indent, blank, texts };
  }
  const bare = inside.map((line, index) => {
    const marker = markers[index];
    return marker === null || marker === undefined
      ? line
      : marker[1]! + line.slice(marker[0].length).trimStart();
  });
  const margin = commonMargin(bare);
  const texts = bare.map(line => line.slice(margin.length));
  return { span, first: quote + margin, others: quote + margin, blank, texts };
}

interface TypedLine {
  readonly line: string;
  readonly start: number;
  readonly end: number;
  /** The line without quote marks and the blanks around it. */
  readonly words: string;
}

function linesIn(text: string, start: number, end: number): readonly TypedLine[] {
  let at = Math.max(text.lastIndexOf('\n', start - 1), text.lastIndexOf('\r', start - 1)) + 1;
  if (start === 0) at = 0;
  const lines: TypedLine[] = [];
  const lineEnd = /\r\n|[\r\n]|$/g;
  for (;;) {
    lineEnd.lastIndex = at;
    const found = lineEnd.exec(text)!;
    const line = text.slice(at, found.index);
    lines.push({ line, start: at, end: found.index, words: line.replace(/^[ \t>]+/, '').trim() });
    if (end <= found.index || found[0] === '') return lines;
    at = found.index + found[0].length;
  }
}

function isLineStart(text: string, at: number): boolean {
  return text[at - 1] === '\n' || text[at - 1] === '\r';
}

function quoteDepth(line: string): number {
  let depth = 0;
  QUOTE.lastIndex = 0;
  while (QUOTE.test(line)) depth += 1;
  return depth;
}

function behindQuote(line: string, depth: number): number {
  let at = 0;
  QUOTE.lastIndex = 0;
  for (let count = 0; count < depth && QUOTE.test(line); count++) at = QUOTE.lastIndex;
  return at;
}

/** A solution that was typed into a fence of its own, which says nothing of its language, leaves that fence. */
function withoutUnnamedFence(lines: readonly string[]): readonly string[] {
  const opening = /^[ \t]{0,3}(`{3,}|~{3,})[ \t]*(?:te?xt|plain(?:text)?)?$/.exec(lines[0]!);
  const closing = lines[lines.length - 1]!.trim();
  const isFence =
    opening !== null && 2 < lines.length && closing.startsWith(opening[1]!) && /^(?:`+|~+)$/.test(closing);
  return isFence ? lines.slice(1, -1) : lines;
}

function commonMargin(lines: readonly string[]): string {
  let margin: string | null = null;
  for (const line of lines) {
    if (line === '') continue;
    const own = /^[ \t]*/.exec(line)![0];
    let same = 0;
    while (margin !== null && same < margin.length && margin[same] === own[same]) same += 1;
    margin = margin === null ? own : margin.slice(0, same);
  }
  return margin ?? '';
}
