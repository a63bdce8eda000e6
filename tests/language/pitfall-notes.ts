import fc from 'fast-check';

/**
 * Notes made of the lines that are hard to cut a note at: fences that stay open, HTML blocks, lazy lines, setext
 * underlines, lists and indented code that go on over blank lines, tabs, byte-order marks, front
 * matter, and every kind of line break.
 */
const FENCES = [
  '```measurement',
  '```measurement q',
  '~~~ measurement',
  '~~~{.measurement #z}',
  '````measurement',
  '~~~~~ measurement',
  '```Measurement A B',
  '```',
  '```',
  '~~~',
  '````',
  '```py',
  '~~~ js `x`',
  '```a`b',
  '``` measurement `',
  '   ```',
  '    ```',
  '  ```measurement z',
  '    ```measurement',
  '\t```measurement',
  '\t```',
  '  > ```measurement',
  '- ```measurement',
  '> ```measurement',
  '> ```',
  '1. ```measurement',
  '- ~~~',
  '>\t```measurement',
  '-\t```measurement',
  '\u2028```measurement',
  'a\u2028```',
  '\uFEFF```measurement',
];

const CONTENT = [
  '',
  '',
  '',
  '',
  '   ',
  '\t',
  'text',
  'reading: 2 cm',
  'a of b = 3',
  '# Heading',
  '===',
  '---',
  '- - -',
  '...',
  '  two',
  '\tthree',
  '    four',
  '> ',
  '>',
  '- ',
  '-',
  '1. ',
  '2) ',
  '- a',
  '  - b',
  '> - c',
  '- > d',
  '>> e',
  '10. f',
  ' - g',
  '   h',
  '     i',
  '+ x',
  '* * *',
  '-\t\tx',
  '>\tx',
  '| a | b |',
  '|---|---|',
  '$$',
  '[^1]: note',
  '    more',
  '[q]: /url "',
  '[q]: /url',
  '\uFEFF',
  '\uFEFFtext',
  '\u00a0',
  '\0',
  '\f',
  'measurement',
];

const HTML = [
  '<!--',
  '-->',
  '<!-- x -->',
  '<!-- a',
  'b --> c',
  '<!-->',
  '<div>',
  '</div>',
  '<a>',
  '<script>',
  '</script>',
  '<pre',
  '</pre >',
  '<style>',
  '<?php',
  '?>',
  '<!X',
  '>x',
  '<![CDATA[',
  ']]>',
];

const SPANS = [
  'text `a of b = 1` more',
  '`MSR of q',
  'x = 3`',
  '`` `` ` ',
  '\\`a of b = 2`',
  '<b title="`">`of = 2`',
  '[x](`y) `of = 3`',
  '```of = 1```',
  '    ```of = 2```',
  '    ```of =',
  '1```',
  '  `of =',
  '> 3`',
];

const PREFIXES = [
  ...['', '', '', '', '', '', '> ', '>', '- ', '  ', '    ', '1. ', '   ', '\t', ' '],
  ...['> > ', '> - ', '- > ', '>   ', '>     '],
];

const HEADS = [
  ...['', '', '', '\uFEFF', '\uFEFF\uFEFF', '---\na: 1\n---\n', '\uFEFF---\n```measurement\nx\n---\n'],
  ...['---\n\n', '---\nx\n', '---\r\nx\r\n...\r\n'],
];

export const pitfallLine: fc.Arbitrary<string> = fc
  .tuple(fc.constantFrom(...PREFIXES), fc.constantFrom(...FENCES, ...CONTENT, ...CONTENT, ...HTML, ...SPANS))
  .map(([prefix, line]) => prefix + line);

/** A block as people write it, each line behind the same marks; now and then one line is not. */
const tidyBlock: fc.Arbitrary<string[]> = fc
  .record({
    marks: fc.constantFrom(
      '',
      '',
      '> ',
      '>',
      '> > ',
      '   ',
      '  ',
      '     ',
      '>\t',
      '\t',
      '- ',
      '1. ',
      '> - ',
      '- > ',
      '-\t',
    ),
    open: fc.constantFrom(
      '```measurement q',
      '~~~ measurement',
      '```measurement',
      '```py',
      '````measurement a b',
    ),
    content: fc.array(fc.constantFrom('a', '', '', '  b', '\tc', '   ', '- d', '> e', '```', '# f'), {
      maxLength: 4,
    }),
    close: fc.constantFrom('```', '```', '~~~', '````', ' ```', '``` x', ''),
    stray: fc.option(pitfallLine, { nil: null, freq: 5 }),
  })
  .map(({ marks, open, content, close, stray }) => {
    const beside = marks.replace(/[-1.]/g, ' ');
    const below = content.map(line => (line === '' ? beside.trimEnd() : beside + line));
    return [marks + open, ...below, ...(stray === null ? [] : [stray]), beside + close];
  });

const lineBreak = fc.constantFrom('\n', '\n', '\n', '\n', '\n', '\n', '\r\n', '\r');

export const pitfallNote: fc.Arbitrary<string> = fc
  .tuple(
    fc.constantFrom(...HEADS),
    fc.array(fc.oneof({ weight: 5, arbitrary: fc.tuple(pitfallLine) }, { weight: 1, arbitrary: tidyBlock }), {
      maxLength: 16,
      size: 'max',
    }),
    fc.array(lineBreak, { minLength: 1, maxLength: 16 }),
    // Most notes keep to one kind of line break.
    fc.boolean(),
  )
  .map(([head, parts, breaks, mixed]) => {
    const end = (index: number) => breaks[mixed ? index % breaks.length : 0]!;
    return (
      head +
      parts
        .flat()
        .map((line, index) => line + end(index))
        .join('')
    );
  });

/** A change as an editor makes it: some characters go, a line or a few characters come. */
export interface NoteEdit {
  readonly at: number;
  readonly gone: number;
  readonly typed: string;
}

export const noteEdit: fc.Arbitrary<NoteEdit> = fc.record({
  at: fc.nat(1000),
  gone: fc.constantFrom(0, 0, 0, 1, 2, 5, 40),
  typed: fc.oneof(
    fc.constantFrom(
      '',
      '\n',
      '\n\n',
      '`',
      '```',
      '~~~',
      '<!--',
      '-->',
      '> ',
      '- ',
      ' ',
      '\t',
      '\r',
      'x',
      '---\n',
    ),
    pitfallLine.map(line => `\n${line}\n`),
  ),
});

export function edited(note: string, { at, gone, typed }: NoteEdit): string {
  const place = note.length === 0 ? 0 : at % (note.length + 1);
  return note.slice(0, place) + typed + note.slice(place + gone);
}
