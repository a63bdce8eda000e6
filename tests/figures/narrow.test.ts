import { describe, expect, test } from 'vitest';
import { examineNote } from '../../server/src/checks/examine.ts';
import { blockFigure, type FigureStyle } from '../../server/src/figures/block-figure.ts';
import { projectFiles, projectText } from '../support/project-files.ts';
import { drawnFigure } from './drawn-figure.ts';
import { ofClass, type Piece, piecesOf, readXml, theOnly } from './read-figure.ts';
import { seeScrew } from './screw-reader.ts';
import { seeStraight } from './straight-reader.ts';

const STYLES: readonly FigureStyle[] = ['question', 'worked'];
/** Half of a window of 1200 pixels, less its margins: common practice, no source. */
const HALF_A_WINDOW = 580;

/** The figure of every block of the examples as the preview shows it. */
const drawn = projectFiles()
  .filter(path => /^examples\/\d\d-[^/]*\.md$/.test(path))
  .flatMap(path => {
    const note = examineNote(projectText(path));
    if (note === null) throw new Error(path);
    return note.measurements.slice(0, note.fences).flatMap(({ name }, block) =>
      STYLES.flatMap(style => {
        const wide = blockFigure(note, block, { style, row: null, small: false });
        const narrow = blockFigure(note, block, { style, row: null, small: false, narrow: true });
        expect(narrow === null, `${path} ${name}`).toBe(wide === null);
        return narrow === null || wide === null
          ? []
          : [{ name: `${path} ${name} ${style}`, narrow, wide, root: readXml(narrow.svg) }];
      }),
    );
  });

/** How low something reaches, by the texts in it. */
function lowest(piece: Piece): number {
  return Math.max(
    ...piecesOf(piece)
      .filter(({ name }) => name === 'text')
      .map(({ attributes }) => Number(attributes.get('y'))),
  );
}

describe('a figure for half a window', () => {
  test('keeps to its width, and its texts to their size', () => {
    expect(drawn.length).toBeGreaterThan(50);
    for (const { name, narrow } of drawn) expect(narrow.width, name).toBeLessThanOrEqual(HALF_A_WINDOW);
  });

  test('shows and says what the wide one does', () => {
    for (const { name, narrow, wide, root } of drawn) {
      const other = readXml(wide.svg);
      expect(root.inside[0]!.text, name).toBe(other.inside[0]!.text);
      for (const part of ['closed', 'reading', 'coincidence', 'results'])
        expect(ofClass(root, part).length, `${name} ${part}`).toBe(ofClass(other, part).length);
      expect(narrow.svg.includes('data-'), name).toBe(wide.svg.includes('data-'));
    }
  });

  test('has the closed position above the reading', () => {
    const both = drawn.filter(({ root }) => ofClass(root, 'closed').length > 0);
    expect(both.length).toBeGreaterThan(10);
    for (const { name, root } of both) {
      const reading = theOnly(ofClass(root, 'reading'), 'reading');
      const heading = piecesOf(reading).find(({ text }) => text === 'Reading')!;
      for (const closed of ofClass(root, 'closed'))
        expect(lowest(closed), name).toBeLessThan(Number(heading.attributes.get('y')));
    }
  });

  test.each(STYLES)('is read back as what was recorded, as %s', style => {
    const options = { style, narrow: true };
    const calipers = drawnFigure(
      [
        'main scale: 1 mm = 1 MSD',
        'vernier scale: 20 VSD = 19 MSD',
        'MSR: 13 mm',
        'n: 7',
        'closed: zeros coincide',
      ],
      options,
    );
    const seen = seeStraight(theOnly(ofClass(readXml(calipers.svg), 'reading'), 'reading'), 1, false);
    expect(seen.coarse).toBeCloseTo(13, 6);
    // 13 mm + 7 × 0.05 mm, by hand.
    expect(seen.zero).toBeCloseTo(13.35, 3);
    const micrometer = drawnFigure(
      ['pitch: 0.5 mm', 'circular scale: 50 divisions', 'LSR: 4.5 mm', 'CSR: 31', 'closed: zeros coincide'],
      options,
    );
    const screw = seeScrew(theOnly(ofClass(readXml(micrometer.svg), 'reading'), 'reading'), 0.5, 50);
    expect(screw.coarse).toBeCloseTo(4.5, 6);
    expect(screw.drum).toBeCloseTo(31, 3);
  });
});
