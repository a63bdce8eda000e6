import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { note } from '../bench/corpus.mjs';

const PROJECT = join(import.meta.dirname, '../..');
const FOLDERS = [
  'examples',
  'examples/careless',
  'tests/natural-typing',
  'tests/rules',
  'tests/slips',
  'tests/published',
];

/** Notes in which every feature of the language stands: the examples and those that the tests are made of. */
export function goodNotes() {
  const notes = FOLDERS.flatMap(folder =>
    readdirSync(join(PROJECT, folder))
      .filter(name => name.endsWith('.md'))
      .map(name => readFileSync(join(PROJECT, folder, name), 'utf8')),
  );
  return [...notes, ...Array.from({ length: 12 }, (_, seed) => note(seed + 1))];
}

/** Numbers that no scale shows: huge, endless, hardly numbers, in foreign digits. */
const NUMBERS = [
  '0',
  '-0',
  '9'.repeat(400),
  `0.${'0'.repeat(300)}1`,
  '1e999999999',
  '1e-60',
  '10^10^10',
  '10^-999',
  '1/0',
  '0/0',
  '1/3/7/0',
  '٣٫١٤',
  '１２３',
  '1,000,000.5',
  '1.2.3.4',
  '0x1F',
  '∞',
  'NaN',
  '1_000',
  '√-1',
  'sqrt(-2)',
  'sin(90)',
  'tan(90°)',
  '2^(2^(2^(2^9)))',
  '100!',
  '½',
  '1e',
  '.',
  '-',
];

/** Pieces that open, close or turn something in Markdown, in math or in a block. */
const PIECES = [
  '```',
  '````',
  '~~~',
  '```measurement\n',
  '```measurement uses: \n',
  '<!--',
  '-->',
  '<script>',
  '<details>',
  '> ',
  '- ',
  '1. ',
  '\t',
  '    ',
  '\n\n',
  '\r',
  '\r\n',
  '\u0000',
  '\u001b[31m',
  '\u2028',
  '\u202e',
  '\ufeff',
  '\ud800',
  '|',
  '|---|',
  '=',
  '= ?',
  ':',
  '#',
  '(',
  ')',
  '{',
  '}',
  '[',
  '\\frac{',
  '\\sqrt{',
  '$',
  '`',
  '±',
  '× ',
  '/',
  '^',
  '°',
  '′',
  ' of ',
  ' mm',
  ' uses: ',
  'waive: ',
  'find: ',
  'answer: A',
  'vernier scale: N divisions',
  'main scale: 1 cm = 0 MSD',
  'closed: ',
  'error rule: ',
  'T: 1, 2, 3 s',
  '---\n',
  '===\n',
  'a'.repeat(5000),
  '('.repeat(300),
  '> '.repeat(200),
  '- '.repeat(200),
  '*'.repeat(1000),
  '[a](b)'.repeat(200),
];

/** A file that nobody would call a note, or a note that went wrong; `random` decides which and how. */
export function spoiltNote(random, good) {
  switch (random.whole(0, 5)) {
    case 0:
      return randomBytes(random);
    case 1:
      return withNumbers(random, random.pick(good));
    default:
      return withEdits(random, random.pick(good), good);
  }
}

function randomBytes(random) {
  const bytes = Buffer.alloc(random.whole(0, 4000));
  // Some of them readable, so that a part of it gets further than the door.
  const readable = random.whole(0, 1) === 0;
  for (let at = 0; at < bytes.length; at++)
    bytes[at] = readable ? random.whole(9, 126) : random.whole(0, 255);
  return random.whole(0, 1) === 0 ? bytes : Buffer.concat([Buffer.from('```measurement\n'), bytes]);
}

function withNumbers(random, text) {
  return Buffer.from(
    text.replace(/\d+(\.\d+)?/g, number => (random.whole(0, 3) === 0 ? random.pick(NUMBERS) : number)),
  );
}

function withEdits(random, note, good) {
  let text = note;
  for (let edit = random.whole(1, 12); edit > 0; edit--) text = edited(random, text, good);
  return Buffer.from(text.slice(0, LONGEST));
}

const LONGEST = 60_000;

function edited(random, text, good) {
  const from = random.whole(0, text.length);
  const to = Math.min(text.length, from + random.whole(0, 80));
  const part = text.slice(from, to);
  const put = piece => text.slice(0, from) + piece + text.slice(from);
  switch (random.whole(0, 6)) {
    case 0:
      return text.slice(0, from) + text.slice(to);
    case 1:
      return put(part.repeat(random.whole(1, 40)));
    case 2:
      return put(random.pick(PIECES));
    case 3:
      return put(random.pick(NUMBERS));
    case 4: {
      const other = random.pick(good);
      const start = random.whole(0, other.length);
      return put(other.slice(start, start + random.whole(0, 600)));
    }
    case 5: {
      const lines = text.split('\n');
      const [one, two] = [0, 0].map(() => random.whole(0, lines.length - 1));
      [lines[one], lines[two]] = [lines[two], lines[one]];
      return lines.join('\n');
    }
    default:
      return text.slice(0, from) + [...part].reverse().join('') + text.slice(to);
  }
}
