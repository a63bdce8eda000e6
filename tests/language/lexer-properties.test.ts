import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { tokenize } from '../../server/src/language/lexer.ts';
import { drawSeed } from '../support/seed.ts';

drawSeed('lexer');

/** Pieces of real lines, and pieces that break lexers. */
const piece = fc.oneof(
  fc.constantFrom(
    ...[
      '2.45',
      '.5',
      '1 195 635',
      '2e-3',
      'cm',
      'mm',
      'LC',
      'D_1',
      'm_{0}',
      'ρ',
      'π',
      'µm',
      'Δ',
      'D₁',
      'x',
      ' x ',
      '°',
      '′',
    ],
    ...[
      '"',
      "'",
      '²',
      '⁻²',
      '+',
      '-',
      '−',
      '–',
      '±',
      '+/-',
      '×',
      '*',
      '**',
      '·',
      '/',
      '^',
      '^{',
      '_',
      '_{',
      '__',
      '(',
      ')',
      '|',
    ],
    ...[
      '\\frac{',
      '\\frac',
      '\\sqrt{',
      '\\sqrt',
      '\\text{',
      '\\left',
      '\\,',
      '\\',
      '{',
      '}',
      '$',
      '`',
      '~',
      '#',
      ' # ',
      '=',
      '≈',
    ],
    ...[
      ',',
      '.',
      ':',
      ';',
      '?',
      ' ',
      '\t',
      '\u00A0',
      '\u200B',
      '\uFEFF',
      '½',
      '٣',
      '😀',
      '\uD835',
      '\uDC00',
      '__proto__',
      '\\mu',
    ],
  ),
  fc.string({ unit: 'binary', maxLength: 4 }),
);
const line = fc.array(piece, { maxLength: 24 }).map(pieces => pieces.join(''));

test('spans are in order, do not overlap, and lie in the line before its comment', () => {
  fc.assert(
    fc.property(line, fc.nat(10_000), (text, start) => {
      const { tokens, comment } = tokenize(text, start);
      let reached = start;
      for (const { span } of tokens) {
        expect(reached).toBeLessThanOrEqual(span.start);
        expect(span.start).toBeLessThanOrEqual(span.end);
        reached = span.end;
      }
      expect(reached).toBeLessThanOrEqual(comment?.start ?? start + text.length);
      expect(comment?.end ?? start + text.length).toBe(start + text.length);
    }),
    { numRuns: 3000 },
  );
});

test('numbers are plain decimals, superscripts whole numbers, and no token is empty', () => {
  fc.assert(
    fc.property(line, text => {
      for (const token of tokenize(text, 0).tokens) {
        expect(token.text).not.toBe('');
        if (token.kind === 'number') expect(token.text).toMatch(/^[0-9]+(\.[0-9]+)?(e-?[0-9]+)?$/);
        if (token.kind === 'superscript') expect(token.text).toMatch(/^-?[0-9]+$/);
        if (token.kind === 'prime') expect(token.text).toMatch(/^[′″]$/);
      }
    }),
    { numRuns: 2000 },
  );
});

test('everything that is no dress, no space and no comment stands in a token', () => {
  const undressed = /[\p{L}\p{N}\p{S}]/u;
  const safe = fc.constantFrom(...'2 3.a b c+−×/()=≈?,;|µ°²½😀ρ%&@'.match(/./gu)!);
  fc.assert(
    fc.property(fc.array(safe, { maxLength: 30 }), characters => {
      const text = characters.join('');
      const covered = new Set<number>();
      for (const { span } of tokenize(text, 0).tokens) {
        for (let at = span.start; at < span.end; at += 1) covered.add(at);
      }
      for (let at = 0; at < text.length; at += 1) {
        if (undressed.test(text[at] as string)) expect(covered.has(at), `${text}, place ${at}`).toBe(true);
      }
    }),
    { numRuns: 2000 },
  );
});

test('a part of a line, lexed at its place, gives the same tokens', () => {
  const words = fc.array(fc.constantFrom('2.45', 'cm', 'LC', '+', '×', '(', ')', '/', 'ρ', '0.02', '±'), {
    minLength: 1,
    maxLength: 8,
  });
  fc.assert(
    fc.property(words, words, (left, right) => {
      const whole = tokenize(`${left.join(' ')} = ${right.join(' ')}`, 0).tokens;
      const from = left.join(' ').length + 3;
      const part = tokenize(right.join(' '), from).tokens;
      const tail = whole.filter(token => from <= token.span.start);
      expect(part.map(({ kind, text, span }) => ({ kind, text, span }))).toEqual(
        tail.map(({ kind, text, span }) => ({ kind, text, span })),
      );
    }),
    { numRuns: 1000 },
  );
});

test('a line longer than any that is meant ends in a token that nobody can read', () => {
  const text = '2 + '.repeat(6000);
  const { tokens } = tokenize(text, 0);
  expect(tokens.at(-1)).toMatchObject({ kind: 'operator', text: '…', span: { start: 19_999, end: 24_000 } });
});

describe('a megabyte in one line', () => {
  const many = (unit: string) => unit.repeat(Math.ceil(1_000_000 / unit.length));
  test.each([
    ['digits', '7'],
    ['groups', ' 000'],
    ['letters', 'm'],
    ['Greek letters', 'ρ'],
    ['stars', '*'],
    ['pairs of stars', '**a '],
    ['underscores', '_'],
    ['openings', '{'],
    ['subscripts', '_{a'],
    ['raised', '^'],
    ['raised with spaces', '^        '],
    ['fractions', '\\frac{1}{'],
    ['fractions without braces', '\\frac'],
    ['roots', '\\sqrt{'],
    ['backslashes', '\\'],
    ['hashes', 'a#'],
    ['spaces', ' '],
    ['spaced x', '2 x '],
    ['slashed groups', '1 195/'],
    ['halves of pairs', '\uD835'],
    ['primes', "2'"],
    ['dashes', '2–'],
    ['backticks', '`'],
  ])('%s', (_, unit) => {
    const text = many(unit);
    const { tokens } = tokenize(text, 0);
    expect(tokens.every(token => token.span.end <= text.length)).toBe(true);
    expect(tokens.length).toBeLessThanOrEqual(10_010);
  });
});
