import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { pick, whole } from '../properties/generators/draw.ts';
import { drawShape } from '../properties/generators/vernier-shape.ts';
import { drawSeed } from '../support/seed.ts';
import { drawnFigure } from './drawn-figure.ts';
import { ofClass, type Piece, piecesOf, readXml, textsOf, theOnly } from './read-figure.ts';

// What a student can see without reading the scales must be the same whichever line is in line.
drawSeed('question figures');

/** All that is said in words, and all that is set apart by how it is drawn; where marks stand is left out. */
function plainLook(root: Piece): readonly string[] {
  return piecesOf(root).map(({ name, attributes, text, inside }) => {
    const looks = ['class', 'stroke-width', 'stroke-dasharray', 'font-weight', 'font-size', 'fill', 'stroke'];
    const look = looks.map(key => attributes.get(key) ?? '').join(' ');
    return `${name} ${look} ${inside.length === 0 && name !== 'text' ? '' : text}`;
  });
}

function withoutText(look: string): string {
  return look.startsWith('text ') ? 'text' : look;
}

/** Title, description and captions. */
function said(root: Piece): readonly string[] {
  return piecesOf(root)
    .filter(({ name, attributes }) => /^(?:title|desc)$/.test(name) || attributes.get('class') === 'caption')
    .map(({ text }) => text);
}

function question(lines: readonly string[]): Piece {
  return readXml(drawnFigure(lines, { style: 'question' }).svg);
}

function numbers(piece: Piece, name: string): string {
  return textsOf(piece, name)
    .map(({ text }) => text)
    .join(' ');
}

describe('a question figure does not tell which line is in line', () => {
  test('of a straight vernier, lying or upright', () => {
    fc.assert(
      fc.property(fc.gen(), draw => {
        const shape = drawShape(draw, pick(draw, ['direct', 'extended', 'retrograde-forward'] as const));
        const common = [
          `instrument: ${pick(draw, ['vernier calipers', 'height gauge'])}`,
          `main scale: ${pick(draw, ['1 mm = 1 MSD', '1 cm = 20 MSD', '1 in = 40 MSD'])}`,
          `vernier scale: ${shape.lines} VSD = ${shape.spans} MSD`,
          `MSR: ${whole(draw, 25, 90)} MSD`,
        ];
        const roots = Array.from({ length: shape.lines - 1 }, (_, at) => at + 1).map(line => ({
          line,
          root: question([...common, `n: ${line}`]),
        }));
        const first = roots[0]!.root;
        for (const { line, root } of roots) {
          // The same words, and the same part of both scales, whatever the line.
          expect(said(root), `line ${line}`).toEqual(said(first));
          const [one, other] = [root, first].map(each => theOnly(ofClass(each, 'whole'), 'whole'));
          for (const name of ['scale-numbers', 'vernier-numbers'])
            expect(numbers(one!, name)).toBe(numbers(other!, name));
          expect(plainLook(one!)).toEqual(plainLook(other!));
          // What is magnified is the same for all lines of a group, the first as well as the last of them.
          const mate = roots.find(each => groupOf(each.line, shape.lines) === groupOf(line, shape.lines))!;
          const [lens, same] = [root, mate.root].map(each => ofClass(each, 'lens')[0]);
          expect(lens === undefined).toBe(same === undefined);
          if (lens !== undefined && same !== undefined)
            expect(numbers(lens, 'vernier-numbers')).toBe(numbers(same, 'vernier-numbers'));
        }
      }),
      { numRuns: 12 },
    );
  });

  test('of an arc', () => {
    fc.assert(
      fc.property(fc.gen(), draw => {
        const [lines, spans, division] = pick(draw, [
          [60, 59, '10′'],
          [30, 29, '30′'],
          [12, 23, '1°'],
          [40, 39, '20′'],
        ] as const);
        const common = [
          `instrument: ${pick(draw, ['sextant', 'theodolite', 'spectrometer', 'bevel protractor'])}`,
          `main scale: 1 MSD = ${division}`,
          `vernier scale: ${lines} VSD = ${spans} MSD`,
          `MSR: ${whole(draw, 10, 80)} MSD`,
        ];
        const shown = (line: number) => question([...common, `n: ${line}`]);
        const group = 5 * whole(draw, 0, Math.floor(lines / 5) - 2);
        // Nought and the last line are in line together.
        const roots = [0, 1, 2, 3, 4].map(at => shown(Math.max(1, group + at)));
        for (const root of roots) {
          expect(said(root)).toEqual(said(roots[0]!));
          expect(numbers(root, 'vernier-numbers')).toBe(numbers(roots[0]!, 'vernier-numbers'));
          // The vernier slides along the scale, so a number of the scale may come into sight; nothing else does.
          const [looks, same] = [root, roots[0]!].map(each => new Set(plainLook(each).map(withoutText)));
          expect(looks).toEqual(same);
        }
        // From group to group only what is seen differs, not what is said.
        const [, description] = said(shown(lines - 2));
        expect(description).toBe(said(roots[0]!)[1]);
      }),
      { numRuns: 15 },
    );
  });

  test('of a screw with a vernier, nor the division of a drum, a dial or a disc', () => {
    const screw = ['linear scale: 1 mm = 2 LSD', 'screw: 1 rotation = 1 LSD', 'circular scale: 50 divisions'];
    const blocks: readonly ((at: number) => readonly string[])[] = [
      at => [...screw, 'vernier scale: 10 VSD = 9 CSD', 'LSR: 6.5 mm', `CSR: ${5 * at + 3}`, `n: ${at}`],
      at => [...screw, 'LSR: 6.5 mm', `CSR: ${5 * at + 3}`],
      at => [
        'instrument: spherometer',
        'pitch: 1 mm',
        'circular scale: 100 divisions',
        'LSR: 2 mm',
        `CSR: ${9 * at + 4}`,
      ],
      at => [
        'instrument: dial gauge',
        'screw: 1 rotation = 1 mm',
        'circular scale: 100 divisions',
        'small hand: 3 turns',
        `large hand: ${9 * at + 4}`,
      ],
    ];
    for (const block of blocks) {
      const roots = Array.from({ length: 9 }, (_, at) => question(block(at + 1)));
      for (const root of roots) expect(said(root)).toEqual(said(roots[0]!));
    }
  });
});

/** The lines from one fifth to the next; the last ones of a vernier together. */
function groupOf(line: number, lines: number): number {
  return Math.max(0, Math.min(Math.floor(line / 5) * 5, lines - 5));
}
