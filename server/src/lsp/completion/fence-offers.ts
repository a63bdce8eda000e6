import { instrumentNamed } from '../../language/instruments.ts';
import { BLOCK_SNIPPETS, snippetLines } from './block-snippets.ts';
import { type Offer, offer } from './offer.ts';

/** The line that opens a fence, as far as it is typed. */
export interface OpeningLine {
  /** Where the info string begins. */
  readonly from: number;
  readonly typed: string;
  /** The fence's characters, to close it. */
  readonly mark: string;
  /** What the lines below must begin with: list indentation and quote marks. */
  readonly prefix: string;
  readonly isClosed: boolean;
}

/** No fence stands further in. */
const MOST_BEFORE = 200;

const OPENING = /^((?:[ \t]*(?:>|[-*+]|\d{1,9}[.)])(?=[ \t]))*[ \t]*)(`{3,}|~{3,})[ \t]*([A-Za-z]*)$/;

/**
 * Whether a place stands on the line that opens a fence, behind its characters, where nothing but the beginning of
 * `measurement` is typed yet; null for any other place, such as the line that closes a fence.
 */
export function openingLine(text: string, offset: number): OpeningLine | null {
  const start = lineStart(text, offset);
  const match = offset - start > MOST_BEFORE ? null : OPENING.exec(text.slice(start, offset));
  if (match === null) return null;
  const [, lead = '', mark = '', typed = ''] = match;
  if (!'measurement'.startsWith(typed.toLowerCase()) || typed.length === 'measurement'.length) return null;
  const end = lineEnd(text, offset);
  if (text.slice(offset, end).trim() !== '' || isInFence(text, start)) return null;
  const next = text.slice(lineEndBreak(text, end), lineEnd(text, lineEndBreak(text, end)));
  const prefix = lead.replace(/[^>\s]/g, ' ');
  const isClosed = end < text.length && next.replace(/^[\s>]*/, '').trim() === mark;
  return { from: offset - typed.length, typed, mark, prefix, isClosed };
}

function lineStart(text: string, offset: number): number {
  return Math.max(text.lastIndexOf('\n', offset - 1), text.lastIndexOf('\r', offset - 1)) + 1;
}

function lineEnd(text: string, offset: number): number {
  const length = text.slice(offset).search(/[\r\n]/);
  return length === -1 ? text.length : offset + length;
}

function lineEndBreak(text: string, end: number): number {
  return text.startsWith('\r\n', end) ? end + 2 : Math.min(end + 1, text.length);
}

const FENCE_LINE = /^[ \t>]*(?:(?:[-*+]|\d{1,9}[.)])[ \t]+)*(`{3,}|~{3,})(.*)$/gm;

/** Whether a fence is still open where a line begins. */
function isInFence(text: string, start: number): boolean {
  let open: string | null = null;
  for (const [, mark = '', rest = ''] of text.slice(0, start).matchAll(FENCE_LINE)) {
    if (open === null) open = mark[0] === '`' && rest.includes('`') ? null : mark;
    else if (mark[0] === open[0] && open.length <= mark.length && rest.trim() === '') open = null;
  }
  return open !== null;
}

/** The block's name is the first place to fill in. */
const NAMED = `measurement \${1:name}`;

/** What may open a block: the word alone, or a whole block about an instrument. */
export function fenceOffers({ mark, prefix, isClosed }: OpeningLine): readonly Offer[] {
  const closing = isClosed ? [] : [mark];
  const word = [NAMED, '$0', ...closing].join(`\n${prefix}`);
  return [
    offer('snippet', 'measurement', 0, {
      detail: 'a block of readings',
      insert: isClosed ? 'measurement' : word,
      isSnippet: !isClosed,
    }),
    ...BLOCK_SNIPPETS.map((snippet, at) =>
      offer('snippet', `measurement ${snippet.instrument}`, 1 + at / 100, {
        detail: 'a whole block',
        insert: [NAMED, ...snippetLines(snippet), ...closing].join(`\n${prefix}`),
        isSnippet: true,
        about: { kind: 'instrument', name: snippet.instrument },
      }),
    ),
  ];
}

/** A whole block's lines, where a block is still empty. */
export function bodyOffers(prefix: string, rank: number): readonly Offer[] {
  return BLOCK_SNIPPETS.map((snippet, at) =>
    offer('snippet', `instrument: ${snippet.instrument} …`, rank + at / 100, {
      detail: 'all lines of a block',
      insert: snippetLines(snippet).join(`\n${prefix}`),
      isSnippet: true,
      filter: `instrument ${snippet.instrument} ${instrumentNamed(snippet.instrument)?.also.join(' ') ?? ''}`,
      about: { kind: 'instrument', name: snippet.instrument },
    }),
  );
}
