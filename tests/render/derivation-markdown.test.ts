import type { Nodes, RootContent } from 'mdast';
import { fromMarkdown } from 'mdast-util-from-markdown';
import { describe, expect, test } from 'vitest';
import { derivationMarkdown } from '../../server/src/render/derivation-markdown.ts';
import { named } from '../../server/src/workings/step-parts.ts';
import { DERIVATIONS, READING } from './bench-derivations.ts';
import { readResults } from './math-reader.ts';
import { katexComplaint, mathPieces } from './strict-katex.ts';

const markdown = derivationMarkdown(DERIVATIONS);

test('a reading, as it would be handed out', () => {
  expect(derivationMarkdown([{ title: 'Observed reading', steps: [READING] }])).toBe(
    [
      '**Observed reading**',
      '',
      '$$',
      '\\begin{aligned}',
      '\\text{observed reading} &= \\text{MSR} + n \\times \\text{LC} \\\\',
      '&= 2.45\\,\\text{cm} + 17 \\times 0.002\\,\\text{cm} \\\\',
      '&= 2.484\\,\\text{cm}',
      '\\end{aligned}',
      '$$',
    ].join('\n'),
  );
});

test('every formula compiles in KaTeX at its strictest', () => {
  const pieces = mathPieces(markdown);
  expect(pieces.length).toBeGreaterThan(10);
  for (const { latex, isDisplayed } of pieces) expect(katexComplaint(latex, isDisplayed)).toBeNull();
});

test('the last numbers are read back', () => {
  expect(readResults(markdown).map(({ left, latex }) => `${left}: ${latex}`)).toContain(
    'zero error: -0.03\\,\\text{mm}',
  );
});

/** A text that stands in a list in a quotation, line by line. */
function inListAndQuote(text: string): string {
  const lines = text.split('\n').map(line => `  ${line}`.trimEnd());
  return ['- a point', '', ...lines].map(line => `> ${line}`.trimEnd()).join('\n');
}

/** Blocks as a reader of Markdown without mathematics sees them, with their source. */
function blocks(text: string, deep: boolean): { node: RootContent; source: string }[] {
  const root = fromMarkdown(text);
  let children: readonly RootContent[] = root.children;
  if (deep) {
    const quote = root.children[0];
    const list = quote?.type === 'blockquote' ? quote.children[0] : undefined;
    children = list?.type === 'list' ? (list.children[0]?.children ?? []) : [];
    expect(root.children).toHaveLength(1);
  }
  return children.map(node => {
    const { start, end } = node.position!;
    return { node, source: text.slice(start.offset, end.offset).replace(/\n> {0,3}/g, '\n') };
  });
}

function typesIn(node: Nodes): string[] {
  return 'children' in node ? [node.type, ...node.children.flatMap(typesIn)] : [node.type];
}

describe.each([
  ['at the margin', markdown, false],
  ['in a list in a quotation', inListAndQuote(markdown), true],
])('read as Markdown %s', (_where, text, deep) => {
  const read = blocks(text, deep);

  test('each title is one bold paragraph', () => {
    const titles = read.filter(
      ({ node }) => node.type === 'paragraph' && node.children[0]?.type === 'strong',
    );
    expect(titles.map(({ node }) => typesIn(node))).toEqual(
      DERIVATIONS.map(() => ['paragraph', 'strong', 'text']),
    );
  });

  test('each display is one paragraph, whole and undressed', () => {
    const displays = read.filter(({ source }) => source.startsWith('$$'));
    expect(displays).toHaveLength(mathPieces(markdown).filter(({ isDisplayed }) => isDisplayed).length);
    for (const { node, source } of displays) {
      expect(source).toMatch(/^\$\$\n(?:[^\n]+\n)+\$\$$/);
      expect(new Set(typesIn(node))).toEqual(
        new Set(['paragraph', 'text', ...(typesIn(node).includes('break') ? ['break'] : [])]),
      );
    }
  });

  test('nothing becomes a heading, a rule, a code block, a link or HTML', () => {
    const types = new Set(read.flatMap(({ node }) => typesIn(node)));
    for (const type of ['heading', 'thematicBreak', 'code', 'inlineCode', 'html', 'link', 'emphasis'])
      expect(types).not.toContain(type);
  });

  test('remarks that follow each other are one list', () => {
    const lists = read.filter(({ node }) => node.type === 'list');
    expect(lists.map(({ node }) => ('children' in node ? node.children.length : 0))).toEqual([2]);
  });
});

test('no line of a formula begins like a block of its own', () => {
  for (const line of mathPieces(markdown).flatMap(({ latex }) => latex.split('\n')))
    expect(line).toMatch(/^(?![-+=#>*~`]|\d+[.)](?:\s|$))\S/);
});

test('a table has the same number of cells in every row, and whatever divides cells is escaped', () => {
  const rows = markdown.split('\n').filter(line => line.startsWith('|'));
  const cells = rows.map(row => row.replace(/\\./g, '').split('|').length);
  expect(cells).toEqual([5, 5, 5, 5, 5, 3, 3]);
  expect(rows[0]).toBe('| factor | share \\| of it |  |');
  expect(rows[2]).toBe('| $m$ | $0.9\\,\\%$ | a record |');
});

test('a reason is a sentence; what it quotes stays as it is', () => {
  expect(markdown).toContain(
    'The zero of the drum stands above the line, so the error is negative: -0.03 mm \\< 0.',
  );
  expect(markdown).toContain('- \\<!-- end working --\\> is choice B \\& C.');
  expect(markdown).toContain('1\\. this is no list.');
});

test('symbols among words are math, articles, choices and units are none', () => {
  const reason =
    'line n stands for N - n least counts (S > V), a mark in choice A is 2 m off, Δrho is rho_0, so t1.';
  expect(derivationMarkdown([{ title: 'Angle A', steps: [{ kind: 'remark', text: reason }] }])).toBe(
    [
      '**Angle $A$**',
      '',
      'Line $n$ stands for $N - n$ least counts (S \\> $V$), a mark in choice A is 2 m off, $\\Delta \\rho$ is $\\rho_{0}$, so $t_{1}$.',
    ].join('\n'),
  );
});

test('hostile titles, reasons and names stay on their lines', () => {
  const hostile = '$$\n\n# <!-- end working --> `a` | \u202e [x](y) \\';
  const text = derivationMarkdown([
    {
      title: hostile,
      steps: [
        { kind: 'remark', text: hostile },
        { kind: 'table', reason: hostile, header: [hostile], rows: [[named(hostile)], [hostile]] },
        { ...READING, reason: hostile, left: named(hostile) } as typeof READING,
      ],
    },
  ]);
  expect(text).not.toContain('<!-- end working -->'.replace('<', '\n<'));
  expect(text).not.toMatch(/(?<!\\)<!--/);
  expect(text).not.toContain('\u202e');
  for (const { latex, isDisplayed } of mathPieces(text))
    expect(katexComplaint(latex, isDisplayed)).toBeNull();
  const types = new Set(blocks(text, false).flatMap(({ node }) => typesIn(node)));
  for (const type of ['heading', 'html', 'link', 'inlineCode']) expect(types).not.toContain(type);
});
