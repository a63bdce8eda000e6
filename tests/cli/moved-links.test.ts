import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import type { Nodes } from 'mdast';
import remarkParse from 'remark-parse';
import { unified } from 'unified';
import { describe, expect, it } from 'vitest';
import { withEdits } from '../../server/src/actions/settled-edits.ts';
import { movedLinks } from '../../server/src/cli/moved-links.ts';
import { folderOf, leastwise } from '../support/command.ts';
import { drawSeed } from '../support/seed.ts';
import { RIGHT_NOTE } from '../support/workshop-notes.ts';

drawSeed('moved links');

/** All addresses of a note, as remark-parse reads them. */
function addresses(text: string): readonly string[] {
  const found: string[] = [];
  const look = (node: Nodes): void => {
    if ('url' in node) found.push(node.url);
    if ('children' in node) node.children.forEach(look);
  };
  look(unified().use(remarkParse).parse(text));
  return found;
}

function moved(text: string, back: string): string {
  return withEdits(text, movedLinks(text, back)!);
}

/** Where a note's addresses lead from its folder; a browser's rules, WHATWG URL. */
function leads(text: string, folder: string): readonly string[] {
  return addresses(text).map(address =>
    decodeURIComponent(new URL(address, `file://${folder}/`).href).replace(/\/$/, ''),
  );
}

describe('the links of a note that is put elsewhere', () => {
  it('lead to the same files', () => {
    const text = [
      '![the bench](photo.png) and [the list](../stock/list.pdf#page=2 "of parts"), [here](./sheet.csv)',
      '',
      '> - [in a list](<my photo (1).png>), ![twice](pictures/../photo.png?raw=1)',
      '> - [![small](thumb.png)](large.png), [odd](a\\_b&amp;c.png), [dots](..), [name](..photo.png)',
      '',
      '[reference][one], ![picture][two]',
      '',
      '[one]: tools/one.html',
      '[two]: <two words.png> "title"',
      '',
    ].join('\n');
    for (const [home, out, back] of [
      ['/shop/bench', '/shop/site', '../bench'],
      ['/shop/bench', '/shop/bench/site', '..'],
      ['/shop/bench', '/shop', 'bench'],
      ['/shop/my bench (2)', '/site/a/b', '../../../shop/my bench (2)'],
    ] as const) {
      const rendered = moved(text, back);
      expect(leads(rendered, out)).toEqual(leads(text, home));
      expect(rendered).not.toBe(text);
      // As short as it can be said.
      expect(rendered).not.toMatch(/[^./]\/\.\.\/(?!photo)/);
    }
  });

  it.each([
    'https://bench.example/a.png',
    'mailto:bench@bench.example',
    '//bench.example/a.png',
    '/assets/a.png',
    '#anchor',
    'other.md',
    './other.md#part',
    'other.markdown',
    '',
  ])('stay as they are: %s', target => {
    const text = `[a](${target}) ![b](${target})\n\n[c]: ${target === '' ? '<>' : target}\n`;
    expect(moved(text, '../bench')).toBe(text);
  });

  it('are not looked for in code, nor in front matter', () => {
    const text = [
      '---',
      'image: "[a](b.png)"',
      '---',
      '`[a](b.png)` \\[a](b.png)',
      '',
      '```',
      '![a](b.png)',
      '```',
      '',
      '    [a](b.png)',
      '',
      '<!-- [a](b.png) <img src="b.png"> -->',
      '',
    ].join('\n');
    expect(moved(text, '..')).toBe(text);
  });

  it('are found in tags, with carriage returns and behind a byte-order mark', () => {
    const text =
      '\uFEFFWords <img width="3" src="a.png">\r\n\r\n<p>\r\n<a href=\'b/c.html\'>c</a>\r\n</p>\r\n\r\n[d](e.png)\r\n';
    expect(moved(text, '..')).toBe(
      text.replace('a.png', '../a.png').replace('b/c', '../b/c').replace('e.png', '../e.png'),
    );
  });

  it('lead to the same files wherever both folders are', () => {
    const part = fc.constantFrom('..', '.', 'a', 'b c', 'd(e)', 'ü%', '1');
    fc.assert(
      fc.property(
        fc.array(part, { minLength: 1, maxLength: 5 }),
        fc.array(fc.constantFrom('a', 'b c', "d'(e)", 'ü%'), { maxLength: 3 }),
        fc.nat(3),
        (parts, down, up) => {
          const target = [...parts.map(each => each.replace('%', '%25')), 'x.png'].join('/');
          const text = `[a](<${target}>)\n`;
          const out = '/o/p/q/r/s';
          const back = [...Array.from({ length: up + 1 }, () => '..'), ...down].join('/');
          const home = new URL(
            back.split('/').map(encodeURIComponent).join('/'),
            `file://${out}/`,
          ).pathname.replace(/\/$/, '');
          const rendered = leads(moved(text, back), out);
          expect(rendered).toEqual(leads(text, home));
        },
      ),
      { numRuns: 200 },
    );
  });

  it('of a note beyond measure are not sought', () => {
    expect(movedLinks('['.repeat(50_000), '..')).toBeNull();
    expect(movedLinks(`${'> '.repeat(200)}[a](b)`, '..')).toBeNull();
  });

  it('are mended by the command, for any folder', () => {
    const note = `${RIGHT_NOTE}\n![photo](photo.png), [next](next.md)\n`;
    const cwd = folderOf({ 'bench/q.md': note, 'bench/plain.md': '[a](b.png)\n' });
    mkdirSync(join(cwd, 'site'));
    writeFileSync(join(cwd, 'bench/photo.png'), '');
    for (const name of ['q.md', 'plain.md'])
      expect(leastwise(['render', `bench/${name}`, '--out', 'site/deep'], { cwd }).status).toBe(0);
    const text = readFileSync(join(cwd, 'site/deep/q.md'), 'utf8');
    expect(text).toContain('![photo](../../bench/photo.png), [next](next.md)');
    expect(text).toContain('(figures/q-axle-sleeve.svg)');
    expect(readFileSync(join(cwd, 'site/deep/plain.md'), 'utf8')).toBe('[a](../../bench/b.png)\n');
  });
});
