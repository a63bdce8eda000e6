import type { Code, InlineCode, Nodes } from 'mdast';
import remarkParse from 'remark-parse';
import { unified } from 'unified';
import { expect } from 'vitest';
import type { Fence, NoteStructure } from '../../server/src/language/syntax.ts';

/** A measurement block as remark-parse, reading the whole note, has it. */
interface RemarkFence {
  readonly start: number;
  readonly end: number;
  readonly info: string;
  readonly value: string;
}

const remark = unified().use(remarkParse).freeze();

/**
 * Reads a whole note with remark-parse alone, the front matter of `from` characters left out.
 *
 * The info string is taken from the opening line as typed, since remark decodes it.
 */
function remarkReads(
  note: string,
  from: number,
): { fences: RemarkFence[]; spans: { start: number; text: string }[] } {
  const fences: RemarkFence[] = [];
  const spans: { start: number; text: string }[] = [];
  const visit = (node: Nodes): void => {
    if (node.type === 'code') {
      const fence = asOurs(note, from, node);
      if (fence !== null) fences.push(fence);
    } else if (node.type === 'inlineCode') {
      spans.push(spanText(note, from, node));
    } else if ('children' in node) {
      node.children.forEach(visit);
    }
  };
  // remark drops a byte-order mark without counting it.
  visit(remark.parse(`\uFEFF${note.slice(from)}`));
  return { fences, spans };
}

function asOurs(note: string, from: number, node: Code): RemarkFence | null {
  const start = node.position!.start.offset! + from;
  const opening = /^(?:`{3,}|~{3,})[ \t]*([^\r\n]*)/.exec(note.slice(start));
  const info = (opening?.[1] ?? '').trimEnd();
  return /^(?:measurement(?:[\s{]|$)|\{[^}]*\.measurement\b)/i.test(info)
    ? { start, end: node.position!.end.offset! + from, info, value: node.value }
    : null;
}

function spanText(note: string, from: number, node: InlineCode): { start: number; text: string } {
  const typed = note.slice(node.position!.start.offset! + from, node.position!.end.offset! + from);
  const marks = /^`+/.exec(typed)![0].length;
  return { start: node.position!.start.offset! + from + marks, text: typed.slice(marks, -marks) };
}

/** Holds a note's structure against what remark-parse, reading the whole of it, finds. */
export function expectAsRemark(note: string, structure: NoteStructure, from: number): void {
  const { fences, spans } = remarkReads(note, from);
  expect(structure.problems).toBeUndefined();
  expect(structure.fences.map(fence => [fence.span.start, fence.info])).toEqual(
    fences.map(fence => [fence.start, fence.info]),
  );
  structure.fences.forEach((fence, index) => {
    expectSameContent(note, fence, fences[index]!);
  });
  const starts = structure.codeSpans.map(span => span.start);
  const claims = fences.length === 0 ? [] : spans.filter(span => isClaim(note, span)).map(span => span.start);
  expect(starts).toEqual(expect.arrayContaining(claims));
  expect(spans.map(span => span.start)).toEqual(expect.arrayContaining(starts));
}

/**
 * Remark gives a fence's content without places, with a blank for each half of a tab, and U+FFFD for U+0000. Of a
 * fence that ends unclosed with its list or quote, it counts the empty last lines by what follows, so they are left out.
 */
function expectSameContent(note: string, fence: Fence, reference: RemarkFence): void {
  const cutShort = !fence.closed && fence.span.end < note.length;
  if (cutShort) {
    expect(note.slice(fence.span.end, reference.end)).toMatch(/^[\s>]*$/);
  } else {
    expect(fence.span.end).toBe(reference.end);
  }
  if (/\r[ \t>]+\n/.test(note)) {
    return; // Remark runs "\r" and "\n" of two lines into one line break when it trims the content.
  }
  const wanted = reference.value.split(/\r\n|[\r\n]/);
  const lines = fence.lines.map(line => line.text.replaceAll('\0', '\uFFFD'));
  if (cutShort) {
    while (lines.length < wanted.length && /^ {0,3}$/.test(wanted.at(-1)!)) wanted.pop();
  } else if (lines.length === 0 && reference.value === '') {
    wanted.pop();
  }
  const matched = wanted.map((line, index) => withoutHalfTab(note, line, lines[index] ?? '', fence, index));
  expect(lines).toEqual(matched);
}

function withoutHalfTab(note: string, wanted: string, text: string, fence: Fence, index: number): string {
  const start = fence.lines[index]?.start ?? 0;
  const blanks = wanted.length - text.length;
  return 0 < blanks && blanks <= 3 && note[start - 1] === '\t' && wanted === ' '.repeat(blanks) + text
    ? text
    : wanted;
}

function isClaim(note: string, { start, text }: { start: number; text: string }): boolean {
  const marks = /`*$/.exec(note.slice(0, start))![0].length;
  const words = text.split(/[^\p{L}\p{M}\p{N}-]+/u).map(word => word.toLowerCase());
  return (
    /[=≈]/.test(text) && !text.includes('`') && !(3 <= marks && /[\r\n]/.test(text)) && words.includes('of')
  );
}
