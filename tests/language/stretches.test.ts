import fc from 'fast-check';
import type { Nodes } from 'mdast';
import remarkParse from 'remark-parse';
import { unified } from 'unified';
import { describe, expect, test } from 'vitest';
import { readingEffort } from '../../server/src/language/reading-effort.ts';
import { layOut } from '../../server/src/language/stretches.ts';
import { drawSeed } from '../support/seed.ts';
import { pitfallNote } from './pitfall-notes.ts';

drawSeed('stretches');

const remark = unified().use(remarkParse).freeze();

/** Remark lets an item end where the next one's mark ends, so here it ends with the start of its last child. */
function endOf(node: Nodes): number {
  return node.type === 'listItem'
    ? (node.children.at(-1) ?? node).position!.start.offset!
    : node.position!.end.offset!;
}

function texts(note: string): string[] {
  return layOut(note, 0).stretches.map(stretch => note.slice(stretch.start, stretch.end));
}

describe('where a note is cut', () => {
  // Source: CommonMark 0.31.2, 5.1 to 5.3 and 4.4: what goes on over a blank line is indented or quoted.
  test.each<[string, string[]]>([
    ['a\n\nb\n', ['a\n\n', 'b\n']],
    ['a\nb\n', ['a\nb\n']],
    ['- a\n\n  b\n\nc\n', ['- a\n\n  b\n\n', 'c\n']],
    ['- a\n\n- b\n', ['- a\n\n', '- b\n']],
    ['    a\n\n    b\n\nc', ['    a\n\n    b\n\n', 'c']],
    ['> a\n>\n> b\n', ['> a\n>\n> b\n']],
    ['a\n \t\n\nb', ['a\n \t\n\n', 'b']],
    ['\n\na', ['\n\n', 'a']],
  ])('%j', (note, wanted) => {
    expect(texts(note)).toEqual(wanted);
  });

  test('no list, quote or paragraph goes on over a cut, as remark reads the note', () => {
    fc.assert(
      fc.property(pitfallNote, note => {
        const plain = note.replace(/^\uFEFF+/, '').replace(/\r\n?/g, '\n');
        expect(texts(plain).join('')).toBe(plain);
        const cuts = layOut(plain, 0).stretches.map(stretch => stretch.start);
        const across: Nodes[] = [];
        const visit = (node: Nodes): void => {
          const start = node.position!.start.offset!;
          const end = endOf(node);
          const isCut = cuts.some(cut => start < cut && cut < end);
          if (isCut && !['root', 'list', 'code', 'html'].includes(node.type)) across.push(node);
          if ('children' in node) node.children.forEach(visit);
        };
        visit(remark.parse(plain));
        expect(across).toEqual([]);
      }),
      { numRuns: 600 },
    );
  });
});

describe('what a stretch can hold', () => {
  test.each<[string, boolean, boolean]>([
    ['```measurement', true, true],
    ['- > 1. ```measurement q', true, false],
    ['    ~~~ {.measurement}', true, false],
    ['~~~ js', false, true],
    ['> ~~~ js', false, false],
    ['``measurement', false, false],
    ['<!-- a', false, true],
    ['<!-- a -->', false, false],
    ['<!-->', false, true],
    ['   <script>', false, true],
    ['<div>', false, false],
    ['a <!-- b', false, false],
  ])('%j', (line, holdsBlock, mayStayOpen) => {
    const [stretch] = layOut(`${line}\n`, 0).stretches;
    expect([0 <= stretch!.lastBlock, 0 <= stretch!.lastOpening]).toEqual([holdsBlock, mayStayOpen]);
  });
});

// Source: remark-parse 11 measured on such text, where twice as much took four to eight times as long.
describe('what reading costs', () => {
  const cost = (text: string, withSpans = false) => readingEffort(text, 0, text.length, withSpans);

  test.each<[string, (size: number) => string, boolean, number]>([
    ['prose', size => 'word '.repeat(size), false, 2],
    ['a list', size => '- > a\n'.repeat(size), false, 4],
    ['marks on a line', size => `${'- '.repeat(size)}a`, false, 8],
    ['text with code spans', size => 'word '.repeat(size), true, 4],
  ])('%s', (_, text, withSpans, growth) => {
    const ratio = cost(text(2000), withSpans).effort / cost(text(1000), withSpans).effort;
    expect(ratio).toBeGreaterThan(0.8 * growth);
    expect(ratio).toBeLessThan(1.2 * growth);
  });

  test('the marks of a line are counted, a rule across the page is no mark', () => {
    expect(cost('> - 1. a\n>>b\n').nesting).toBe(3);
    expect(cost(`${'-'.repeat(200)}\n`).nesting).toBeLessThan(2);
  });
});
