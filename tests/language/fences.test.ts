import { describe, expect, test } from 'vitest';
import { readNote } from '../../server/src/language/fences.ts';
import { DEEPEST_NESTING } from '../../server/src/language/reading-limits.ts';

/** Each block as its lines, with its name's place left to the header's test. */
function blocks(note: string): string[][] {
  return readNote(note).fences.map(fence => fence.lines.map(line => line.text));
}

const lines = (...all: string[]) => all.join('\n');

// Source: CommonMark 0.31.2, section 4.5, "Fenced code blocks", each with the info string `measurement`.
describe('what is a block', () => {
  test.each<[string, string, string[][]]>([
    ['backticks', lines('```measurement', '<', ' >', '```'), [['<', ' >']]],
    ['tildes', lines('~~~ measurement', '<', '~~~'), [['<']]],
    ['fewer than three', lines('``measurement', 'a', '``'), []],
    ['the other mark does not close', lines('```measurement', 'a', '~~~', '```'), [['a', '~~~']]],
    ['a shorter fence does not close', lines('````measurement', 'a', '```', '``````'), [['a', '```']]],
    ['unclosed, to the end', lines('`````measurement', '', '```', 'a'), [['', '```', 'a']]],
    ['unclosed, to the end of its quote', lines('> ```measurement', '> a', '', 'b'), [['a']]],
    ['empty lines only', lines('```measurement', '', '  ', '```'), [['', '  ']]],
    ['no lines', lines('```measurement', '```'), [[]]],
    ['indented', lines('  ```measurement', 'a', '  a', '   a', '  ```'), [['a', 'a', ' a']]],
    ['indented too far', lines('    ```measurement', '    a', '    ```'), []],
    ['a closing fence indented too far', lines('```measurement', 'a', '    ```'), [['a', '    ```']]],
    ['backticks in the info string', lines('```measurement ```', 'a'), []],
    ['below and above a paragraph', lines('foo', '```measurement', 'bar', '```', 'baz'), [['bar']]],
    ['between headings', lines('foo', '---', '~~~measurement', 'bar', '~~~', '# baz'), [['bar']]],
    ['in another fence', lines('~~~', '```measurement', 'a', '```', '~~~'), []],
  ])('%s', (_, note, wanted) => {
    expect(blocks(note)).toEqual(wanted);
  });

  // Source: the same, 4.6 (HTML blocks), 5.1 (block quotes), 5.2 (list items); front matter: Pandoc's manual.
  test.each<[string, string, string[][]]>([
    ['in a list', lines('- x', '', '  ```measurement', '  a', '', '    b', '  ```'), [['a', '', '  b']]],
    ['in an item of its own', lines('1. ```measurement', '   a', '   ```'), [['a']]],
    ['in a quote in a list', lines('- > ```measurement', '  > a', '  >', '  > ```'), [['a', '']]],
    ['in a comment', lines('<!--', '', '```measurement', 'a', '```', '-->'), []],
    ['below a comment', lines('<!--', '', '-->', '```measurement', 'a', '```'), [['a']]],
    ['in an HTML block up to a blank line', lines('<div>', '```measurement', 'a', '```', '</div>'), []],
    [
      'in front matter',
      lines('---', 'x: |', '  a', '```measurement', 'a', '```', '---', '```measurement', 'b'),
      [['b']],
    ],
    ['below a rule at the top', lines('---', '', '```measurement', 'b', '```', '', '---'), [['b']]],
  ])('%s', (_, note, wanted) => {
    expect(blocks(note)).toEqual(wanted);
  });
});

describe('where a block stands', () => {
  test('offsets count from the real start, byte-order mark, front matter and all', () => {
    const note = '\uFEFF---\r\nt: x\r\n---\r\n\r\n```measurement q\r\na\r\n\r\n\tb\r\n```\r\nafter';
    const [fence] = readNote(note).fences;
    expect(note.slice(fence!.span.start, fence!.span.end)).toBe('```measurement q\r\na\r\n\r\n\tb\r\n```');
    expect(note.slice(fence!.infoSpan.start, fence!.infoSpan.end)).toBe('measurement q');
    expect(fence!.lines.map(line => [line.text, note.slice(line.start).split('\r\n')[0]])).toEqual([
      ['a', 'a'],
      ['', ''],
      ['\tb', '\tb'],
    ]);
    expect(fence!.closingEnd).toBe(fence!.span.end);
  });

  test('a lone carriage return ends a line', () => {
    expect(blocks('```measurement\ra\r\rb\r```\r')).toEqual([['a', '', 'b']]);
  });

  test('a blank that is half of a tab is left out', () => {
    const note = '- x\n\n  ```measurement\n\ta\n  ```';
    const [line] = readNote(note).fences[0]!.lines;
    expect([line!.text, line!.start, line!.prefix]).toEqual(['a', note.indexOf('\ta') + 1, '\t']);
  });

  test('what a new line must begin with', () => {
    const note = lines(
      '1. > ```measurement',
      '   > a',
      '   >',
      '   > ```',
      '',
      '- ```measurement',
      '',
      '  b',
    );
    const [quoted, listed] = readNote(note).fences;
    expect(quoted!.prefix).toBe('   > ');
    expect(quoted!.lines.map(line => line.prefix)).toEqual(['   > ', '   > ']);
    expect(listed!.prefix).toBe('  ');
    expect(listed!.lines.map(line => line.prefix)).toEqual(['  ', '  ']);
    expect([quoted!.closed, listed!.closed]).toEqual([true, false]);
  });
});

describe('code spans that can be claims', () => {
  const block = '```measurement axle-sleeve\n```\n\n';

  test.each<[string, string[]]>([
    [
      'it measures `corrected reading of axle-sleeve = 2.478 cm`',
      ['corrected reading of axle-sleeve = 2.478 cm'],
    ],
    ['so ``LC of axle-sleeve ≈ 0.02 mm`` holds', ['LC of axle-sleeve ≈ 0.02 mm']],
    ['it is `axle-sleeve = 2 cm`, of the sleeve', []],
    ['> `LC of\n> axle-sleeve = 0.02 mm`', ['LC of   axle-sleeve = 0.02 mm']],
    ['an area of `x = 2` and `LC of axle-sleeve`', []],
    ['escaped \\`LC of axle-sleeve = 2 mm`', []],
    ['    `LC of axle-sleeve = 2 mm`', []],
    ['```text\n`LC of axle-sleeve = 2 mm`\n```', []],
  ])('%j', (prose, wanted) => {
    const note = block + prose;
    const spans = readNote(note).codeSpans;
    expect(spans.map(span => span.text)).toEqual(wanted);
    for (const span of spans) {
      expect(note.slice(span.start, span.start + span.text.length).replace(/\n> /g, '   ')).toBe(span.text);
    }
  });

  test('without a block there is none', () => {
    expect(readNote('measurement: `LC of axle-sleeve = 2 mm`')).toEqual({ fences: [], codeSpans: [] });
  });
});

describe('limits', () => {
  const block = '```measurement\na\n```\n\n';

  test('quotes too deep for a block are said, and the note goes on below', () => {
    const deep = `${'>'.repeat(DEEPEST_NESTING + 1)} \`\`\`measurement\n\n`;
    const { fences, problems } = readNote(deep + block);
    expect(problems?.map(problem => [problem.rule, problem.span])).toEqual([
      ['limit', { start: 0, end: deep.length }],
    ]);
    expect(fences.map(fence => fence.span.start)).toEqual([deep.length]);
  });

  test('a list too long to be read is said, and what stands above it is kept', () => {
    const list = '- > a\n'.repeat(20_000);
    const { fences, problems } = readNote(`${block}${list}> \`\`\`measurement\n`);
    expect(fences.map(fence => fence.span.start)).toEqual([0]);
    expect(problems?.map(problem => [problem.rule, problem.span.start])).toEqual([['limit', block.length]]);
  });

  test('what has no block is nobody’s concern', () => {
    const { fences, problems } = readNote(`${'> '.repeat(500)}a\n\n${block}`);
    expect(fences).toHaveLength(1);
    expect(problems).toBeUndefined();
  });
});

// Each would take remark-parse seconds to hours if it got the whole note, so a reading that gives it too much times out.
describe('a hostile note is read, or said to be too much', () => {
  const block = '```measurement\na\n```\n';
  const fill = (text: string, length = 1_000_000) => text.repeat(length / text.length);

  test.each<[string, string, number]>([
    ['a megabyte in one line', `${fill('a ')}\n${block}`, 1],
    ['a million backticks', `${fill('`')}measurement\n${block}`, 1],
    ['an unclosed fence above all', `~~~measurement\n${fill(block)}`, 1],
    ['an unclosed comment above all', `${block}<!--\n\n${fill(block)}`, 1],
    ['nothing but openings', fill('```measurement\n'), 1],
    ['front matter without an end', `---\n${fill('\n')}${block}`, 1],
    ['a million line breaks', `${fill('\r')}${block}`, 1],
    ['forty thousand comments', `${fill('<!--\n\n-->\n\n')}${block}`, 1],
    ['a million equals signs', `${block}\n\`of${fill('=')}`, 1],
  ])('%s', (_, note, wanted) => {
    const { fences, problems } = readNote(note);
    expect(fences).toHaveLength(wanted);
    expect(problems).toBeUndefined();
  });

  test.each<[string, string]>([
    ['ten thousand quotes', `${'>'.repeat(10_000)} ${block}`],
    ['ten thousand lists', `${'- '.repeat(10_000)}${block}`],
    [
      'nested lists',
      `${Array.from({ length: 1000 }, (_, depth) => `${'  '.repeat(depth)}- a\n`).join('')}${block}`,
    ],
    ['lazy lines', `> a\n${fill('b\n')}${block}`],
    ['quotes in lists', `${fill('- > a\n')}${block}`],
    ['brackets', `${fill('[a](')}\`a of b = 1\`\n\n${block}`],
    ['stars', `${fill('*a_ ')}\`a of b = 1\`\n\n${block}`],
    ['comments in a line', `${fill('a <!-- ')}\`a of b = 1\`\n\n${block}`],
    ['backticks in pairs', `${fill('`a of b = ')}\n\n${block}`],
    ['definitions', `${fill('[a]: b\n')}${block}`],
  ])('%s', (_, note) => {
    expect(readNote(note).problems?.map(problem => problem.rule)).toEqual(['limit']);
  });
});
