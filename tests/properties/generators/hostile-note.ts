import { fencedBlock } from './bench-note.ts';
import { hostileBlock, READING, SCALES } from './hostile-block.ts';
import { CROWDS, LONG_LINES } from './hostile-crowds.ts';
import { DIVISIONS, NESTING, NUMBERS } from './hostile-numbers.ts';

/** A block with one wrong claim, which must be found whatever stands above it. */
export const SENTINEL = fencedBlock(
  ['main scale: 1 mm = 1 MSD', 'vernier scale: 10 VSD = 9 MSD', 'least count = 0.2 mm'],
  'sentinel',
);

export const SENTINEL_LINK = '0.2 mm';

/** References that come back to where they began. */
const CIRCLES: Readonly<Record<string, string>> = {
  quantities: hostileBlock('a = b = 1 mm', 'b = c = 1 mm', 'c = a = 1 mm', 'd = d + 1 mm'),
  records: hostileBlock(
    'a: b',
    'b: a',
    'D: corrected reading',
    'zero error: zero correction',
    'zero correction: zero error',
  ),
  'the block itself': hostileBlock(
    'uses: hostile',
    'D: D of hostile',
    'observed reading: observed reading of hostile',
  ),
  rows: hostileBlock(
    '| label | observed reading |',
    '| p | observed reading of q |',
    '| q | observed reading of p |',
    'h = observed reading of p - observed reading of q = ?',
  ),
  blocks: [
    fencedBlock(['D: D of second', 'uses: second'], 'first'),
    fencedBlock(['D: D of third', 'uses: third'], 'second'),
    fencedBlock(['D: D of first', 'uses: first'], 'third'),
  ].join('\n\n'),
  'two that use each other': [
    fencedBlock([...SCALES, 'uses: second', 'observed reading = ?'], 'first'),
    fencedBlock(['MSR: 3 mm', 'n: 3', 'uses: first', 'observed reading = ?'], 'second'),
  ].join('\n\n'),
  'a mean of itself': hostileBlock('T: 1 s, 2 s', 'T = mean of T', 'mean of T = mean of mean of mean of T'),
  'errors of errors': hostileBlock(
    'x: 1 mm ± 0.1 mm',
    'y = absolute error of absolute error of percentage error of x',
    'percentage error of y = ?',
  ),
};

/** Names that a program keeps for itself, wherever a note may hold a name. */
const OWN_NAMES = [
  '__proto__',
  'constructor',
  'toString',
  'hasOwnProperty',
  'valueOf',
  'prototype',
  'length',
  '__defineGetter__',
  'undefined',
  'NaN',
  'null',
];

const NAMES: Readonly<Record<string, string>> = Object.fromEntries(
  OWN_NAMES.map(name => [
    `the name ${name}`,
    [
      fencedBlock([...READING, `${name}: 3 mm`, `${name} = 4 mm`, `wall ${name} t: 2 mm`], name),
      fencedBlock(
        [
          `uses: ${name}`,
          `D: observed reading of ${name}`,
          `q: ${name} of ${name}`,
          `x: 3 ${name}`,
          `r = ${name}(3)`,
        ],
        null,
      ),
      fencedBlock(
        [
          `| label | ${name} | MSR |`,
          `| ${name} | 3 mm | 4 mm |`,
          `h = MSR of ${name} = ?`,
          `instrument: ${name}`,
          `waive: ${name}, so printed`,
          `error rule: ${name}`,
          `find: ${name}`,
          `option ${name}: 3 mm`,
          `answer = ${name}`,
          `vernier runs: ${name}`,
          `closed: ${name}`,
          `turned: ${name}`,
        ],
        `b-${name}`,
      ),
      `The prose says \`observed reading of ${name} = 3 mm\`, \`${name} of ${name} = ${name}\`.`,
    ].join('\n\n'),
  ]),
);

/** Characters that no keyboard has. */
const CHARACTERS: Readonly<Record<string, string>> = {
  'half a character': hostileBlock('\ud800 = 1 mm', 'x: 1 \udc00mm', `${'\ud83d'.repeat(1000)}: 3`),
  'no characters': hostileBlock(
    '\u0000 = 1 mm',
    'x: 1\u0000mm',
    '\u200b\u200c\u200d\ufeff: 1 mm',
    '\u202eleast count = 1 mm',
  ),
  'other digits': hostileBlock('x: ١٢٣ mm', 'y: 𝟙𝟚 mm', 'z: ２．５ mm', 'q = ½ mm + ⅓ mm', 'r = x⁻⁻²²⁺'),
  'piled accents': hostileBlock(`x${'\u0301'.repeat(100_000)}: 1 mm`, `q = 1${'\u0338'.repeat(100_000)} mm`),
  'other line ends': hostileBlock(
    'pitch: 1 mm\r',
    'circular scale: 100\rleast count = 0.01 mm\u2028',
    'LSR: 3 mm\u0085',
    'CSR: 4\f\v',
  ),
  'a mark of byte order': `\ufeff${hostileBlock('\ufeffleast count = 1 mm')}`,
};

export const HOSTILE: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  numbers: NUMBERS,
  divisions: DIVISIONS,
  nesting: NESTING,
  'long lines': LONG_LINES,
  crowds: CROWDS,
  circles: CIRCLES,
  names: NAMES,
  characters: CHARACTERS,
};

/** Notes whose Markdown is too much to be read to the end: they may be left unread, but never without a word. */
export const UNREADABLE: Readonly<Record<string, string>> = {
  'quotes in quotes': `${'> '.repeat(400)}${'```'}measurement hostile\n${'> '.repeat(400)}least count = 1 mm\n\n`,
  'long prose': `${'`corrected reading of hostile = 1 mm` '.repeat(25_000)}\n\n${hostileBlock(...READING)}`,
};
