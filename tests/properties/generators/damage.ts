import { type Draw, pick, whole } from './draw.ts';

const PIECES = [
  ' ',
  '\n',
  '\t',
  '0',
  '7',
  '9',
  '.',
  ',',
  '-',
  '−',
  '+',
  '±',
  '×',
  '/',
  '^',
  '(',
  ')',
  '|',
  '=',
  ':',
  '#',
  '?',
  '%',
  '°',
  '′',
  '″',
  '$',
  '\\',
  '{',
  '}',
  '_',
  '*',
  '~',
  '`',
  '≈',
  '²',
  '⁻',
  'e',
  'x',
  'n',
  'N',
  'S',
  'V',
  'mm',
  'cm',
  'deg',
  'of',
  'uses: ',
  'MSD',
  ' = ',
  ': ',
  ' = ?',
  '1/',
  '10^',
  '\\frac{',
  '\\text{',
  'sqrt(',
  '\u0000',
  '\ud800',
  '\u00a0',
  '𝟙',
];

/** Deletes, inserts, doubles and moves characters and lines, as a hand in a hurry and a careless merge would. */
export function damaged(draw: Draw, text: string): string {
  let result = text;
  for (let edits = whole(draw, 1, 8); edits > 0; edits -= 1) result = edited(draw, result);
  return result;
}

function edited(draw: Draw, text: string): string {
  const at = whole(draw, 0, text.length);
  const to = Math.min(text.length, at + whole(draw, 1, 6));
  const lines = text.split('\n');
  const line = whole(draw, 0, lines.length - 1);
  switch (
    pick(draw, [
      'delete',
      'insert',
      'double',
      'delete line',
      'double line',
      'swap lines',
      'cut line',
    ] as const)
  ) {
    case 'delete':
      return text.slice(0, at) + text.slice(to);
    case 'insert':
      return text.slice(0, at) + pick(draw, PIECES) + text.slice(at);
    case 'double':
      return text.slice(0, to) + text.slice(at);
    case 'delete line':
      return lines.filter((_, index) => index !== line).join('\n');
    case 'double line':
      return [...lines.slice(0, line + 1), ...lines.slice(line)].join('\n');
    case 'swap lines':
      return [...lines.slice(line), ...lines.slice(0, line)].join('\n');
    case 'cut line':
      return lines
        .map((one, index) => (index === line ? one.slice(0, Math.floor(one.length / 2)) : one))
        .join('\n');
  }
}

/** Lines put together from the language's own words in no order at all. */
export function wordSalad(draw: Draw): string {
  const words = [...PIECES, ...WORDS];
  return Array.from({ length: whole(draw, 1, 12) }, () =>
    Array.from({ length: whole(draw, 1, 9) }, () => pick(draw, words)).join(pick(draw, [' ', ''])),
  ).join('\n');
}

const WORDS = [
  'main scale',
  'vernier scale',
  'circular scale',
  'linear scale',
  'screw',
  'pitch',
  'least count',
  'zero error',
  'zero correction',
  'closed',
  'vernier zero right',
  'division 3',
  'main scale reading',
  'coinciding division',
  'LSR',
  'CSR',
  'observed reading',
  'corrected reading',
  'mean',
  'percentage error of',
  'absolute error of',
  'between',
  'and',
  'VSD',
  'LSD',
  'CSD',
  'rotation',
  'divisions',
  'full rotations',
  'turned',
  'toward higher numbers',
  'error rule',
  'half the least count',
  'find',
  'option A',
  'answer',
  'waive',
  'wrong-value',
  'any length',
  'any whole number',
  'k',
  'D',
  'rho',
  'T',
  'pi',
  '1 mm',
  '0.5 mm',
  '25',
  '24',
  '| label | LSR | CSR |',
  '|---|',
  'standard deviation of',
  'uses',
  'hostile',
  'sentinel',
  'instrument',
  'vernier calipers',
  'measuring range',
  '0 mm to 150 mm',
  'Given',
  'so',
];
