import { combined, type Dimension, NO_DIMENSION } from '../engine/dimension.ts';
import { unitWord } from '../engine/unit.ts';
import { replacing } from './expression-fixes.ts';
import type { Fix, Problem } from './problem.ts';
import { joinSpans, type Span, type Token } from './syntax.ts';
import { wholeExponent } from './unit-parser.ts';

/** Units that are typed without a space between them. */
const PIECES = ['kg', 'g', 'km', 'cm', 'mm', 'm', 's', 'kN', 'N', 'kJ', 'J', 'kW', 'W', 'V', 'A', 'K', 'C']
  .concat(['Pa', 'Hz', 'mol', 'rad', 'Ω'])
  .filter(piece => unitWord(piece) !== null);
const MOST_LETTERS = 8;
const MOST_PIECES = 4;

/**
 * `Nm` as `N m`, `kgms` as `kg m s`: the units that a word runs together.
 *
 * Null for a word that is a unit itself, and for one that comes apart in several ways or in none.
 */
function unitsApart(word: string): string | null {
  if (word.length > MOST_LETTERS || unitWord(word) !== null) return null;
  for (let count = 2; count <= MOST_PIECES; count++) {
    const ways = splits(word, count);
    if (ways.length > 0) return ways.length === 1 ? ways[0]! : null;
  }
  return null;
}

function splits(word: string, count: number): readonly string[] {
  if (count === 1) return PIECES.includes(word) ? [word] : [];
  return PIECES.filter(piece => word.startsWith(piece)).flatMap(piece =>
    splits(word.slice(piece.length), count - 1).map(rest => `${piece} ${rest}`),
  );
}

/** What to say of units that a word behind a number runs together; null where it runs none together. */
export function runTogether(word: string, span: Span): { message: string; fixes: readonly Fix[] } | null {
  const apart = unitsApart(word);
  return apart === null
    ? null
    : {
        message: `${word} is no unit; units beside each other stand apart: ${apart}`,
        fixes: [replacing(span, apart, true)],
      };
}

/**
 * Words that are units by themselves, and look like two of them before an exponent: a millisecond, centimetres, kilograms.
 *
 * The second is what the exponent seems to belong to; seconds are looked for below the line only.
 */
const LIKE_TWO: ReadonlyMap<string, readonly [string, string]> = new Map([
  ['ms', ['m', 's']],
  ['cms', ['cm', 's']],
  ['mms', ['mm', 's']],
  ['kms', ['km', 's']],
  ['gm', ['g', 'm']],
  ['gms', ['g m', 's']],
  ['kgm', ['kg', 'm']],
  ['kgms', ['kg m', 's']],
]);

/** A unit with its exponent, and the two units that it looks like. */
export interface LikeTwo {
  readonly typed: string;
  readonly apart: string;
  /** What the dimensions of a value gain when it is the other one. */
  readonly gain: Dimension;
  readonly span: Span;
  readonly fix: Fix;
}

/** `ms^-2` among the tokens, and `m s^-2` that it looks like; null where nothing of the kind stands there. */
export function unitLikeTwo(tokens: readonly Token[]): LikeTwo | null {
  for (const [at, { kind, text, span }] of tokens.entries()) {
    const two = kind === 'word' && at > 0 ? LIKE_TWO.get(text) : undefined;
    const exponent = two === undefined ? null : wholeExponent(tokens, at + 1);
    if (two === undefined || exponent === null || (two[1] === 's' && exponent.value >= 0)) continue;
    const [first, second] = two;
    const apart = `${first} ${second}^${exponent.value}`;
    const words = `${first} ${second}`;
    return {
      typed: `${text}^${exponent.value}`,
      apart,
      gain: gainOf(text, first, second, exponent.value),
      span: joinSpans(span, tokens[exponent.to - 1]!.span),
      fix: { title: `Write ${apart}`, edits: [{ span, newText: words }], sure: false },
    };
  }
  return null;
}

function gainOf(typed: string, first: string, second: string, exponent: number): Dimension {
  const of = (word: string): Dimension => unitWord(word)?.dimension ?? NO_DIMENSION;
  const both = first.split(' ').reduce((sum, word) => combined(sum, of(word), 1), NO_DIMENSION);
  return combined(combined(both, of(second), exponent), of(typed), -exponent);
}

/** A record of `9.8 ms^-2`, which is per square millisecond and looks like metres per second squared; null for others. */
export function doubtfulPower(tokens: readonly Token[]): Problem | null {
  const like = unitLikeTwo(tokens);
  if (like === null) return null;
  const { typed, apart, span, fix } = like;
  const isPerMillisecond = typed === 'ms^-1';
  const other = isPerMillisecond ? ', and for one per millisecond kHz' : '';
  return {
    rule: 'ambiguous-expression',
    span,
    message: `${typed} has no space, so nobody can tell whether ${apart} is meant; if so write ${apart}${other}`,
    fixes: isPerMillisecond ? [fix, replacing(span, 'kHz')] : [fix],
  };
}
