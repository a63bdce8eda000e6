import { describe, expect, test } from 'vitest';
import { examineNote } from '../../server/src/checks/examine.ts';
import { blockFigure, type FigureStyle } from '../../server/src/figures/block-figure.ts';
import { projectFiles, projectText } from '../support/project-files.ts';
import { drawnFigure, figureOrNull } from './drawn-figure.ts';
import { ofClass, type Piece, piecesOf, readXml } from './read-figure.ts';

const STYLES: readonly FigureStyle[] = ['question', 'worked'];

interface Drawn {
  readonly name: string;
  readonly style: FigureStyle;
  readonly svg: string;
  readonly alternative: string;
  readonly root: Piece;
  /** Values that only the solution has, with their units. */
  readonly answers: readonly string[];
}

/** Every figure of the examples, all rows of their tables. */
function exampleFigures(): readonly Drawn[] {
  return projectFiles()
    .filter(path => /^examples\/\d\d-[^/]*\.md$/.test(path))
    .flatMap(path => {
      const note = examineNote(projectText(path));
      if (note === null) throw new Error(path);
      return Array.from({ length: note.fences }, (_, block) => block).flatMap(block => {
        const { rows, name } = note.measurements[block]!;
        const choices = rows.length === 0 ? [null] : rows.map(({ number }) => number);
        return choices.flatMap(row =>
          STYLES.flatMap(style => {
            const worked = blockFigure(note, block, { style: 'worked', row, small: false });
            const figure = blockFigure(note, block, { style, row, small: false });
            if (figure === null || worked === null) return [];
            const answers = [...worked.alternative.matchAll(/(?:reading|error) = ([^;]+)/g)].map(
              match => match[1]!,
            );
            return [{ ...figure, name: `${name} ${row}`, style, root: readXml(figure.svg), answers }];
          }),
        );
      });
    });
}

const drawn = exampleFigures();

describe('the figures of the examples', () => {
  test('are drawn for every family', () => {
    const titles = drawn.map(({ root }) => root.inside[0]!.text).join('\n');
    for (const instrument of [
      'vernier calipers',
      'screw gauge',
      'vernier micrometer',
      'spherometer',
      'dial gauge',
      'bevel protractor',
      'theodolite',
      'sextant',
      'spectrometer',
      'barometer',
      'height gauge',
      'depth gauge',
      'travelling microscope',
    ]) {
      expect(titles).toContain(instrument);
    }
  });

  test('are whole documents with a title and a description of their own', () => {
    const ids = new Set<string>();
    for (const { root, name } of drawn) {
      expect(root.name, name).toBe('svg');
      const [title, description] = root.inside;
      expect([title!.name, description!.name]).toEqual(['title', 'desc']);
      expect(title!.text.length).toBeGreaterThan(5);
      expect(description!.text.length).toBeGreaterThan(30);
      const named = [title!, description!].map(piece => piece.attributes.get('id')!);
      expect(root.attributes.get('aria-labelledby')).toBe(named.join(' '));
      expect(root.attributes.get('role')).toBe('img');
      ids.add(named[0]!);
    }
    expect(ids.size).toBe(new Set(drawn.map(({ svg }) => svg)).size);
  });

  test('have no script, no reference, no colour of their own and nothing foreign', () => {
    const names = new Set<string>();
    const keys = new Set<string>();
    const paints = new Set<string>();
    for (const { root, svg } of drawn) {
      for (const { name, attributes } of piecesOf(root)) {
        names.add(name);
        for (const [key, value] of attributes) {
          keys.add(key);
          if (key === 'fill' || key === 'stroke') paints.add(value);
        }
      }
      expect(svg.replace('xmlns="http://www.w3.org/2000/svg"', '')).not.toMatch(
        /url\(|https?:|#[0-9a-f]{3}\b/i,
      );
    }
    const allowed = ['svg', 'title', 'desc', 'g', 'path', 'text', 'rect', 'circle', 'ellipse', 'tspan'];
    expect([...names].filter(name => !allowed.includes(name))).toEqual([]);
    expect([...keys].filter(key => /^on|href|src/.test(key))).toEqual([]);
    expect([...paints].sort()).toEqual(['currentColor', 'none']);
  });

  test('give nothing away in the style of a question', () => {
    for (const { root, style, alternative, answers, name } of drawn) {
      if (style !== 'question') continue;
      const said = piecesOf(root)
        .filter(piece => !ofClass(root, 'drum-numbers').some(group => group.inside.includes(piece)))
        .filter(piece => !ofClass(root, 'scale-numbers').some(group => group.inside.includes(piece)))
        .map(
          ({ text, attributes }) =>
            `${text} ${attributes.get('class') ?? ''} ${attributes.get('aria-label') ?? ''}`,
        )
        .join('\n');
      for (const text of [said, alternative]) {
        expect(text, name).not.toMatch(
          /in line|equally off|nearest|on the line|observed|corrected|coincidence|dimension/,
        );
        for (const answer of answers) expect(text, name).not.toContain(answer);
      }
      expect(
        piecesOf(root)
          .flatMap(({ attributes }) => [...attributes.keys()])
          .join(' '),
      ).not.toContain('data-');
    }
  });

  test('explain the reading in the worked style', () => {
    for (const { root, style, answers, name } of drawn) {
      if (style !== 'worked') continue;
      const texts = piecesOf(root)
        .filter(piece => piece.name === 'text')
        .map(({ text }) => text)
        .join('\n');
      expect(answers.length, name).toBeGreaterThan(0);
      for (const answer of answers) expect(texts, name).toContain(answer);
      expect(ofClass(root, 'coincidence').length, name).toBeGreaterThan(0);
    }
  });

  test('keep within their own view and keep their numbers apart', () => {
    for (const { root, name, style } of drawn) {
      const [, , width, height] = root.attributes.get('viewBox')!.split(' ').map(Number);
      for (const piece of piecesOf(root).filter(each => each.name === 'text')) {
        const [x, y] = [Number(piece.attributes.get('x')), Number(piece.attributes.get('y'))];
        const room = piece.text.length * 6.2;
        const anchor = piece.attributes.get('text-anchor');
        const left = anchor === 'start' ? x : anchor === 'end' ? x - room : x - room / 2;
        expect(left, `${name} ${style} ${piece.text}`).toBeGreaterThanOrEqual(0);
        expect(left + room, `${name} ${style} ${piece.text}`).toBeLessThanOrEqual(width! + 2);
        expect(y).toBeGreaterThan(8);
        expect(y, `${name} ${style} ${piece.text}`).toBeLessThanOrEqual(height! - 3);
      }
    }
  });

  test('come out alike each time', () => {
    const again = exampleFigures();
    expect(again.map(({ svg }) => svg)).toEqual(drawn.map(({ svg }) => svg));
  });
});

const CALIPERS = ['main scale: 1 mm = 1 MSD', 'vernier scale: 10 VSD = 9 MSD', 'MSR: 21 mm', 'n: 4'];

describe('what a note may hold', () => {
  test('hostile names do no harm', () => {
    for (const hostile of [
      '"><script>alert(1)</script>',
      "' onload='alert(1)",
      ']]><!-- &amp; &#0; &bogus;',
      'calipers \u202e\u2066 turned \u200f round',
      'a\u0000b\u0007c\ufffe \ud800 d',
      'x'.repeat(5000),
    ]) {
      for (const style of STYLES) {
        const figure = figureOrNull([`instrument: ${hostile}`, ...CALIPERS], { style });
        if (figure === null) throw new Error(`not drawn: ${hostile.slice(0, 30)}`);
        const root = readXml(figure.svg);
        expect(piecesOf(root).map(({ name }) => name)).not.toContain('script');
        expect(figure.svg).not.toMatch(/[\u202a-\u202e\u2066-\u2069\u200e\u200f]/);
        expect(figure.svg.length).toBeLessThan(20_000);
      }
    }
  });

  test('a small figure has a ground of its own, and no closed position', () => {
    const figure = drawnFigure([...CALIPERS, 'closed: zeros coincide'], { small: true });
    const root = readXml(figure.svg);
    expect(
      root.inside.some(({ name, attributes }) => name === 'rect' && attributes.get('fill') === 'white'),
    ).toBe(true);
    expect(root.attributes.get('color')).toBe('black');
    expect(ofClass(root, 'closed')).toEqual([]);
    const large = readXml(drawnFigure([...CALIPERS, 'closed: zeros coincide'], {}).svg);
    expect(ofClass(large, 'closed')).toHaveLength(1);
    expect(large.attributes.get('color')).toBeUndefined();
  });

  test.each([
    [
      'letters',
      ['w: any length', 'main scale: 1 MSD = w', 'vernier scale: 10 VSD = 9 MSD', 'MSR: 3 MSD', 'n: 4'],
    ],
    ['no reading', CALIPERS.slice(0, 2)],
    ['scales that are not known', ['least count: 0.01 cm', 'MSR: 2.4 cm', 'n: 6']],
    ['what cannot occur', [...CALIPERS.slice(0, 2), 'MSR: 21 mm', 'n: 47']],
    [
      'a vernier of a million lines',
      ['main scale: 1 mm = 1 MSD', 'vernier scale: 1000000 VSD = 999999 MSD', 'MSR: 2 mm', 'n: 6'],
    ],
    [
      'a drum of a million divisions',
      ['pitch: 1 mm', 'circular scale: 1000000 divisions', 'LSR: 2 mm', 'CSR: 6'],
    ],
    ['a place beyond all scales', [...CALIPERS.slice(0, 2), 'MSR: 99999999999999999999 mm', 'n: 4']],
    ['no measurement at all', ['D: 4 mm']],
  ])('%s draws nothing', (_, lines) => {
    expect(figureOrNull(lines, {})).toBeNull();
  });

  test('a row that is not there, a block that is not there', () => {
    const note = examineNote(['```measurement', ...CALIPERS, '```'].join('\n'))!;
    for (const [block, row] of [
      [1, null],
      [-1, null],
      [0, 1],
      [0, 0],
    ] as const) {
      expect(blockFigure(note, block, { style: 'worked', row, small: false })).toBeNull();
    }
  });
});
