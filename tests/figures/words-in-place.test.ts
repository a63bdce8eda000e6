import { describe, expect, test } from 'vitest';
import type { FigureOptions } from '../../server/src/figures/block-figure.ts';
import { drawnFigure } from './drawn-figure.ts';
import { ofClass, type Piece, piecesOf, readXml, textsOf } from './read-figure.ts';

/** How wide letters of a wide sans-serif font are, in thousandths of their size; common practice, no source. */
const WIDTHS: readonly (readonly [string, number])[] = [
  ['ijl', 278],
  [' .,', 318],
  ["':;′″", 337],
  ['ft()r-', 392],
  ['°', 500],
  ['sc', 550],
  ['=×+−', 838],
  ['w', 818],
  ['mM', 974],
];
const OTHER = 636;

type Place = readonly [x: number, y: number];

interface Words {
  readonly text: string;
  readonly corners: readonly Place[];
}

/** The words of a drawing with the corners of the room that they take, from the baseline up. */
function wordsOf(root: Piece): readonly Words[] {
  const walk = (piece: Piece, size: number): readonly Words[] => {
    const own = Number(piece.attributes.get('font-size') ?? size);
    return [
      ...(piece.name === 'text' ? [placed(piece, own)] : []),
      ...piece.inside.flatMap(child => walk(child, own)),
    ];
  };
  return walk(root, 13);
}

function placed({ attributes, text }: Piece, size: number): Words {
  const wide = [...text].reduce(
    (sum, sign) => sum + (WIDTHS.find(([signs]) => signs.includes(sign))?.[1] ?? OTHER),
    0,
  );
  const length = (wide * size * (attributes.has('font-weight') ? 1.1 : 1)) / 1000;
  const [x, y] = [Number(attributes.get('x')), Number(attributes.get('y'))];
  const anchor = attributes.get('text-anchor');
  const from = anchor === 'start' ? x : anchor === 'end' ? x - length : x - length / 2;
  const turn = (Number(/rotate\((\S+)/.exec(attributes.get('transform') ?? '')?.[1] ?? 0) * Math.PI) / 180;
  const corner = ([cx, cy]: Place): Place => [
    x + (cx - x) * Math.cos(turn) - (cy - y) * Math.sin(turn),
    y + (cx - x) * Math.sin(turn) + (cy - y) * Math.cos(turn),
  ];
  const corners: readonly Place[] = [
    [from, y],
    [from + length, y],
    [from + length, y - 0.7 * size],
    [from, y - 0.7 * size],
  ];
  return { text, corners: corners.map(corner) };
}

/** Whether two convex shapes share more than half a unit, by the directions of their sides. */
function isOver(one: Words, other: Words): boolean {
  return [one, other].every(({ corners }) =>
    corners.every(([x1, y1], at) => {
      const [x2, y2] = corners[(at + 1) % corners.length]!;
      const length = Math.hypot(x2 - x1, y2 - y1);
      const along = ({ corners: all }: Words) =>
        all.map(([x, y]) => (x * (y2 - y1) - y * (x2 - x1)) / length);
      const [a, b] = [along(one), along(other)];
      return Math.min(Math.max(...a), Math.max(...b)) - Math.max(Math.min(...a), Math.min(...b)) > 0.5;
    }),
  );
}

const OPTIONS: readonly Partial<FigureOptions>[] = [
  { style: 'question' },
  { style: 'worked' },
  { style: 'worked', narrow: true },
  { style: 'worked', small: true },
];

const SCREW = ['screw: 2 rotations = 1 mm', 'linear scale: 1 mm = 2 LSD'];

const BLOCKS: readonly (readonly [string, readonly string[]])[] = [
  [
    'a height gauge whose vernier is numbered backward, near the upper end',
    [
      ...['instrument: height gauge', 'main scale: 1 mm = 1 MSD', 'vernier scale: 50 VSD = 49 MSD'],
      ...['vernier runs: backward', 'closed: vernier zero right, division 15', 'MSR: 8 mm', 'n: 43'],
    ],
  ],
  [
    'a vernier of two hundred lines',
    [
      ...['main scale: 1 mm = 1 MSD', 'vernier scale: 200 VSD = 199 MSD', 'closed: zeros coincide'],
      ...['MSR: 143 mm', 'n: 184'],
    ],
  ],
  [
    'a vernier that is numbered backward, with its zero near the right end',
    [
      ...['main scale: 1 mm = 1 MSD', 'vernier scale: 100 VSD = 99 MSD', 'vernier runs: backward'],
      ...['closed: zeros coincide', 'MSR: 1 mm', 'n: 74'],
    ],
  ],
  [
    'a long vernier on a small upright scale',
    [
      ...['instrument: depth gauge', 'main scale: 1 mm = 1 MSD', 'vernier scale: 100 VSD = 199 MSD'],
      ...['vernier runs: backward', 'MSR: 2 mm', 'n: 20'],
    ],
  ],
  [
    'a magnified window with large numbers',
    [
      ...['main scale: 1 mm = 1 MSD', 'vernier scale: 10 VSD = 19 MSD', 'vernier runs: backward'],
      ...['closed: vernier zero right, division 5', 'MSR: 1056 mm', 'n: 5'],
    ],
  ],
  [
    'a screw with checks whose mean has a long sentence',
    [
      ...[...SCREW, 'circular scale: 25 divisions', 'LSR: 0 mm', 'CSR: 19.5'],
      ...[
        'closed: circular zero above the line, division 6',
        'closed: circular zero below the line, division 9',
      ],
    ],
  ],
  [
    'a screw whose divisions have no decimal',
    [
      ...['linear scale: 1 mm = 1 LSD', 'screw: 1 rotation = 1 LSD', 'circular scale: 6 divisions'],
      ...['LSR: 2 mm', 'CSR: 4'],
    ],
  ],
  [
    'a vernier on a drum of fine divisions',
    [
      ...[...SCREW, 'circular scale: 500 divisions', 'vernier scale: 10 VSD = 9 CSD'],
      ...['LSR: 1 mm', 'CSR: 203', 'n: 6'],
    ],
  ],
  [
    'an arc whose vernier is numbered backward',
    [
      ...['instrument: bevel protractor', "main scale: 1 MSD = 20'", 'vernier scale: 40 VSD = 39 MSD'],
      ...['vernier runs: backward', "MSR: 67° 20'", 'n: 1'],
    ],
  ],
  [
    'a spherometer in inches',
    [
      ...['instrument: spherometer', 'linear scale: 1 in = 40 LSD', 'screw: 1 rotation = 1 LSD'],
      ...['circular scale: 25 divisions', 'closed: circular zero above the line, division 13'],
      ...['LSR: 0 in', 'CSR: 15'],
    ],
  ],
];

describe.each(BLOCKS)('the words of %s', (_, lines) => {
  test.each(OPTIONS)('stand on the paper, none over another: %o', options => {
    const { svg, width, height } = drawnFigure(lines, options);
    const words = wordsOf(readXml(svg));
    for (const { text, corners } of words)
      for (const [x, y] of corners) {
        expect(x, text).toBeGreaterThanOrEqual(0);
        expect(x, text).toBeLessThanOrEqual(width);
        expect(y, text).toBeGreaterThanOrEqual(0);
        expect(y, text).toBeLessThanOrEqual(height);
      }
    const over = words.flatMap((one, at) =>
      words
        .slice(at + 1)
        .filter(other => isOver(one, other))
        .map(other => `${one.text} | ${other.text}`),
    );
    expect(over).toEqual([]);
  });
});

test('a scale is numbered by round steps, however small it is drawn', () => {
  for (const lines of [50, 100, 200])
    for (const small of [true, false]) {
      const scales = ['main scale: 1 mm = 1 MSD', `vernier scale: ${lines} VSD = ${2 * lines - 1} MSD`];
      const block = ['instrument: height gauge', ...scales, 'MSR: 2 mm', 'n: 20'];
      const [whole] = ofClass(readXml(drawnFigure(block, { small }).svg), 'whole');
      const numbers = textsOf(whole!, 'scale-numbers').map(({ text }) => Number(text));
      const step = numbers[1]! - numbers[0]!;
      expect([10, 20, 50, 100, 200], `${lines} ${small}`).toContain(step);
    }
});

test('a disc bears at least two numbers in sight, so that one sees which way they rise', () => {
  for (const divisions of [10, 20, 25, 50, 60, 100, 200])
    for (const options of OPTIONS)
      for (let at = 0; at < divisions; at += Math.ceil(divisions / 12)) {
        const lines = ['instrument: spherometer', 'pitch: 1 mm', `circular scale: ${divisions} divisions`];
        const { svg } = drawnFigure([...lines, 'LSR: 3 mm', `CSR: ${at}`], options);
        const [reading] = ofClass(readXml(svg), 'reading');
        expect(textsOf(reading!, 'drum-numbers').length, `${divisions} ${at}`).toBeGreaterThan(1);
      }
});

test('inches are called by their name, so that they read as no other word', () => {
  const lines = ['main scale: 1 in = 40 MSD', 'vernier scale: 25 VSD = 24 MSD', 'MSR: 1.225 in', 'n: 8'];
  const { svg, alternative } = drawnFigure(lines, {});
  expect(alternative).toContain('main scale in inches, numbered from');
  expect(piecesOf(readXml(svg)).some(({ text }) => text.startsWith('main scale in inches,'))).toBe(true);
});
