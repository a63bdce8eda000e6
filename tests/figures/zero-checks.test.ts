import { expect, test } from 'vitest';
import { drawnFigure } from './drawn-figure.ts';
import { ofClass, piecesOf, readXml } from './read-figure.ts';

const SCREW = ['screw: 2 rotations = 1 mm', 'linear scale: 1 mm = 2 LSD', 'circular scale: 50 divisions'];

/** A block of each family that is not a straight vernier, with two zero checks and what they read, by hand. */
const BLOCKS: readonly (readonly [string, readonly string[], readonly string[]])[] = [
  [
    'a screw',
    [
      ...SCREW,
      'closed: circular zero above the line, division 46',
      'closed: circular zero below the line, division 2',
      'LSR: 6.5 mm',
      'CSR: 34',
    ],
    ['reads -0.04 mm', 'reads +0.02 mm'],
  ],
  [
    'a dial',
    [
      'instrument: dial gauge',
      'screw: 1 rotation = 1 mm',
      'circular scale: 100 divisions',
      'closed: 2 divisions below the line',
      'closed: 4 divisions below the line',
      'full rotations: 3',
      'CSR: 58',
    ],
    ['reads +0.02 mm', 'reads +0.04 mm'],
  ],
  [
    'an arc',
    [
      'instrument: sextant',
      "main scale: 1 MSD = 10'",
      'vernier scale: 60 VSD = 59 MSD',
      'closed: 4 divisions on the arc',
      'closed: 8 divisions off the arc',
      "MSR: 47° 20'",
      'n: 31',
    ],
    ['reads +40″', 'reads -1′ 20″'],
  ],
  [
    'a disc',
    [
      'instrument: spherometer',
      'pitch: 1 mm',
      'circular scale: 100 divisions',
      'closed: 4 divisions above the line',
      'closed: 2 divisions above the line',
      'LSR: 2 mm',
      'CSR: 63',
    ],
    ['reads -0.04 mm', 'reads -0.02 mm'],
  ],
];

test.each(BLOCKS)('both zero checks of %s are drawn, and told of', (_, lines, reads) => {
  for (const style of ['question', 'worked'] as const) {
    const { svg, alternative } = drawnFigure(lines, { style });
    const root = readXml(svg);
    const closed = ofClass(root, 'closed');
    expect(closed).toHaveLength(2);
    expect(alternative).toContain('in each of 2 checks');
    expect(alternative.includes('the mean of 2 checks')).toBe(style === 'worked');
    for (const [at, panel] of closed.entries()) {
      const said = piecesOf(panel)
        .map(({ text }) => text)
        .join('\n');
      expect(said).toContain(`Closed, check ${at + 1}`);
      expect(said.includes(reads[at]!)).toBe(style === 'worked');
    }
    // Each stands in a place of its own, within the drawing.
    const [first, second, reading] = [...closed, ...ofClass(root, 'reading')].map(panel => {
      const heading = piecesOf(panel).find(({ text }) => /^(?:Closed|Reading)/.test(text))!;
      return `${heading.attributes.get('x')} ${heading.attributes.get('y')}`;
    });
    expect(new Set([first, second, reading]).size).toBe(3);
    const [, , width, height] = root.attributes.get('viewBox')!.split(' ').map(Number);
    for (const piece of piecesOf(root).filter(({ name }) => name === 'text')) {
      expect(Number(piece.attributes.get('x'))).toBeLessThan(width!);
      expect(Number(piece.attributes.get('y'))).toBeLessThan(height!);
    }
  }
});
