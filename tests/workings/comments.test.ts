import fc from 'fast-check';
import type { Nodes } from 'mdast';
import remarkParse from 'remark-parse';
import { unified } from 'unified';
import { describe, expect, it } from 'vitest';
import { readNote } from '../../server/src/language/fences.ts';
import { type WorkingComment, workingComments } from '../../server/src/language/working-comments.ts';
import { drawSeed } from '../support/seed.ts';

drawSeed('workings/comments');

const BLOCK = '```measurement tool-wall\nmain scale: 1 mm = 1 MSD\n```\n';
const OPENING = '<!-- working: tool-wall 3f2a9c -->';
const END = '<!-- end working -->';

function commentsOf(note: string): readonly WorkingComment[] {
  return workingComments(note, readNote(note));
}

/** The comments of a note in few words: what the opening line says, what the end line is, what is the matter. */
function told(note: string): readonly string[] {
  return commentsOf(note).map(({ kind, name, digest, end, trouble, fenceStart }) => {
    const closing = end === null ? (trouble ?? 'none') : note.slice(end.start, end.end);
    return `${kind} ${name} ${digest} | ${closing}${fenceStart === null ? ' | no block' : ''}`;
  });
}

describe('the comment lines of a working', () => {
  it('are found with their places', () => {
    const note = `\uFEFF---\ntitle: shed\n---\n\n${BLOCK}\n${OPENING}\n\nIts wall is thin.\n\n${END}\n`;
    const [comment] = commentsOf(note);
    expect(note.slice(comment!.opening.start, comment!.opening.end)).toBe(OPENING);
    expect(note.slice(comment!.end!.start, comment!.end!.end)).toBe(END);
    expect(comment).toMatchObject({
      kind: 'working',
      name: 'tool-wall',
      digest: '3f2a9c',
      trouble: null,
      prefix: '',
    });
    expect(comment!.fenceStart).toBe(note.indexOf('```measurement'));
  });

  it.each<[string, string, readonly string[]]>([
    [
      'with carriage returns',
      `${BLOCK}\n${OPENING}\n\nthin\n\n${END}\n`.replaceAll('\n', '\r\n'),
      [`working tool-wall 3f2a9c | ${END}`],
    ],
    ['right below the block', `${BLOCK}${OPENING}\nthin\n${END}\n`, [`working tool-wall 3f2a9c | ${END}`]],
    [
      'below a paragraph without a blank line',
      `${BLOCK}\nthin\n${OPENING}\n${END}`,
      [`working tool-wall 3f2a9c | ${END}`],
    ],
    [
      'in capitals and with other blanks',
      `${BLOCK}\n<!--working:tool-wall   3F2A9C-->\n<!--  end  working-->`,
      ['working tool-wall 3f2a9c | <!--  end  working-->'],
    ],
    ['with the digest only', `${BLOCK}\n<!-- working: 3f2a9c -->\n${END}`, [`working null 3f2a9c | ${END}`]],
    [
      'above any block',
      `<!-- working: 3f2a9c -->\n${END}\n\n${BLOCK}`,
      [`working null 3f2a9c | ${END} | no block`],
    ],
    [
      'without a digest',
      `${BLOCK}\n<!-- working: tool-wall -->\n${END}`,
      [`working tool-wall null | ${END}`],
    ],
    [
      'of a block that is not there',
      `${BLOCK}\n<!-- working: spoke 3f2a9c -->\n${END}`,
      [`working spoke 3f2a9c | ${END} | no block`],
    ],
    [
      'in a note without any block',
      `<!-- working: spoke 3f2a9c -->\n${END}`,
      [`working spoke 3f2a9c | ${END} | no block`],
    ],
    [
      'of a figure',
      `${BLOCK}\n<!-- figure: tool-wall 3f2a9c -->\n![](a.svg)\n<!-- end figure -->`,
      ['figure tool-wall 3f2a9c | <!-- end figure -->'],
    ],
    ['without an end', `${BLOCK}\n${OPENING}\n\nthin\n`, ['working tool-wall 3f2a9c | no-end']],
    [
      'with the end of a figure',
      `${BLOCK}\n${OPENING}\n\n<!-- end figure -->\n`,
      ['working tool-wall 3f2a9c | no-end'],
    ],
    [
      'with two ends',
      `${BLOCK}\n${OPENING}\n\n${END}\n\nthin\n\n${END}\n`,
      ['working tool-wall 3f2a9c | two-ends'],
    ],
    [
      'with the end in a list',
      `${BLOCK}\n${OPENING}\n\n- thin\n\n  ${END}\n`,
      ['working tool-wall 3f2a9c | end-elsewhere'],
    ],
    [
      'with the end in a quote',
      `${BLOCK}\n${OPENING}\n\n> ${END}\n`,
      ['working tool-wall 3f2a9c | end-elsewhere'],
    ],
    [
      'in two items of a list',
      `${BLOCK}\n1. a\n\n   ${OPENING}\n2. b\n\n   ${END}\n`,
      ['working tool-wall 3f2a9c | end-elsewhere'],
    ],
    [
      'in a list',
      `${BLOCK}\n1. a\n\n   ${OPENING}\n\n   thin\n\n   ${END}\n2. b\n`,
      [`working tool-wall 3f2a9c | ${END}`],
    ],
    ['in a quote', `${BLOCK}\n> ${OPENING}\n>\n> thin\n>\n> ${END}\n`, [`working tool-wall 3f2a9c | ${END}`]],
    [
      'one after the other',
      `${BLOCK}\n${OPENING}\n${OPENING}\n${END}`,
      ['working tool-wall 3f2a9c | no-end', `working tool-wall 3f2a9c | ${END}`],
    ],
  ])('%s', (_, note, wanted) => {
    expect(told(note)).toEqual(wanted);
  });

  it.each<[string, string]>([
    ['a sample in a fence', `${BLOCK}\n\`\`\`text\n${OPENING}\n${END}\n\`\`\`\n`],
    ['a line of a block', `\`\`\`measurement a\n${OPENING}\n\`\`\`\n`],
    ['indented code', `${BLOCK}\n    ${OPENING}\n    ${END}\n`],
    ['a code span', `${BLOCK}\nWrite \`${OPENING}\` below.\n`],
    ['words within a paragraph', `${BLOCK}\nthin ${OPENING} ${END}\n`],
    ['words within another comment', `${BLOCK}\n<!-- as in\n${OPENING.replace('-->', '')}\n-->\n`],
    ['front matter', `---\nnote: x\n${OPENING}\n---\n\n${BLOCK}`],
    ['a comment of another kind', `${BLOCK}\n<!-- working: on this -->\n`],
    ['an end alone', `${BLOCK}\n${END}\n`],
  ])('are not %s', (_, note) => {
    expect(told(note)).toEqual([]);
  });

  // Source of what is a comment of its own line: remark-parse 11, reading the whole note.
  it('are those that remark finds in the whole of a note', () => {
    const remark = unified().use(remarkParse).freeze();
    const line = fc.oneof(
      { weight: 4, arbitrary: fc.constantFrom(OPENING, '<!-- working: 0a0a0a -->', END) },
      fc.constantFrom(
        'thin',
        '',
        '',
        '```',
        '```measurement spoke',
        '~~~',
        '- a',
        '> b',
        '<!-- other',
        '-->',
        '<div>',
        '    ',
      ),
    );
    const place = fc.constantFrom('', '', '', '  ', '> ', '- ', '   ', '    ', '> - ', '\t');
    let found = 0;
    fc.assert(
      fc.property(
        fc.array(fc.tuple(place, line), { maxLength: 24 }),
        fc.constantFrom('\n', '\r\n', '\r'),
        (lines, lineBreak) => {
          const note = `${BLOCK}\n${lines.map(parts => parts.join('')).join('\n')}`.replaceAll(
            '\n',
            lineBreak,
          );
          const wanted: number[] = [];
          const visit = (node: Nodes): void => {
            if (node.type === 'html') {
              const { start, end } = node.position!;
              const text = note.slice(start.offset, end.offset);
              if (/^<!-- (?:working:|end working)/.test(text)) wanted.push(start.offset!);
            }
            if ('children' in node && node.type !== 'paragraph') node.children.forEach(visit);
          };
          visit(remark.parse(note));
          const starts = (readNote(note).comments ?? []).map(({ span }) => span.start);
          expect(starts).toEqual(wanted);
          found += wanted.length;
        },
      ),
      { numRuns: 500 },
    );
    expect(found).toBeGreaterThan(300);
  });
});
