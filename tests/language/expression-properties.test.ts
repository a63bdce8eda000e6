import fc from 'fast-check';
import { all, create, type Fraction } from 'mathjs';
import { describe, expect, test } from 'vitest';
import { evaluate } from '../../server/src/engine/evaluation.ts';
import * as Q from '../../server/src/engine/quantity.ts';
import * as R from '../../server/src/engine/rational.ts';
import { realValue } from '../../server/src/engine/scalar.ts';
import { unitWord } from '../../server/src/engine/unit.ts';
import type { Parsed } from '../../server/src/language/expression-parser.ts';
import { tokenize } from '../../server/src/language/lexer.ts';
import {
  type Choose,
  LENGTH_NAMES,
  lengthLink,
  type Made,
  NUMBER_NAMES,
  numberLink,
  written,
} from '../support/expression-texts.ts';
import { withFix } from '../support/fixes.ts';
import { BENCH_NAMES, parse, wordNames } from '../support/parse-expression.ts';
import { drawSeed } from '../support/seed.ts';

// Source of the values: the formula's own tree, and mathjs (a general library) as a second opinion.
drawSeed('expression');

const names = wordNames(...LENGTH_NAMES.keys(), ...NUMBER_NAMES.keys());
const METRE = unitWord('m')!;

function worth(parsed: Parsed): R.Rational | null {
  if (parsed.expression === null) return null;
  const outcome = evaluate(parsed.expression, key => {
    const length = LENGTH_NAMES.get(key);
    const number = NUMBER_NAMES.get(key);
    if (length !== undefined) return { ok: true, quantity: Q.quantity(length, METRE) };
    return { ok: true, quantity: Q.plain(number ?? R.ZERO) };
  });
  // Numbers past all bounds have no value here; that is the engine's own limit and tested there.
  fc.pre(outcome.ok || outcome.trouble.kind !== 'too-large');
  return outcome.ok ? realValue(outcome.quantity.scalar) : null;
}

function chooser(choices: readonly number[]): Choose {
  let at = 0;
  return options => {
    const choice = choices[at % choices.length] as number;
    at += 1;
    return options[choice % options.length] as (typeof options)[number];
  };
}

const choices = fc.array(fc.nat(1000), { minLength: 1, maxLength: 12 });

function expectSameValue(made: Made, spelling: readonly number[]): void {
  const text = written(made, chooser(spelling));
  const parsed = parse(text, { names });
  expect(parsed.problems, text).toEqual([]);
  const read = worth(parsed);
  expect(read === null ? null : R.toFractionText(read), text).toBe(R.toFractionText(made.value));
}

describe('a formula, written in any dress, is read as what it was', () => {
  test('lengths', () => {
    fc.assert(fc.property(lengthLink, choices, expectSameValue), { numRuns: 1500 });
  });

  test('numbers', () => {
    fc.assert(fc.property(numberLink, choices, expectSameValue), { numRuns: 1500 });
  });

  test('in math dress', () => {
    fc.assert(
      fc.property(lengthLink, choices, (made, spelling) => {
        const text = written(made, chooser(spelling));
        const plain = parse(text, { names });
        for (const dressed of [`$${text}$`, `$$ ${text} $$`, `\\(${text}\\)`, `**${text}**`, `\`${text}\``]) {
          expect(worth(parse(dressed, { names })), dressed).toEqual(worth(plain));
        }
      }),
      { numRuns: 300 },
    );
  });
});

const math = create(all!, { number: 'Fraction' });

/** Plain arithmetic as mathjs reads it too: explicit signs, brackets anywhere. */
const arithmetic = fc.letrec<{ sum: string; atom: string }>(tie => ({
  sum: fc
    .array(fc.tuple(fc.constantFrom('+ ', '-', '*', '/', ' + ', ' - ', ' * ', ' / '), tie('atom')), {
      maxLength: 5,
    })
    .chain(rest => tie('atom').map(first => first + rest.map(([sign, atom]) => sign + atom).join(''))),
  atom: fc.oneof(
    { depthSize: 'small' },
    fc.nat(99).map(value => String(value === 10 ? 12 : value)),
    fc.tuple(fc.nat(99), fc.nat(99)).map(([whole, rest]) => `${whole}.${rest}`),
    tie('sum').map(sum => `(${sum})`),
    tie('atom').map(atom => (atom.startsWith('-') ? `(${atom})` : `-${atom}`)),
    fc.tuple(tie('sum'), fc.integer({ min: 2, max: 4 })).map(([sum, exponent]) => `(${sum})^${exponent}`),
    fc.tuple(fc.nat(9), fc.nat(3), fc.nat(2)).map(([base, exponent, next]) => `${base}^${exponent}^${next}`),
  ),
})).sum;

test('plain arithmetic has the value that mathjs finds', () => {
  fc.assert(
    fc.property(arithmetic, text => {
      let second: Fraction | null = null;
      try {
        second = math.evaluate(text) as Fraction;
      } catch {
        second = null;
      }
      const parsed = parse(text, { names });
      expect(parsed.problems, text).toEqual([]);
      const read = worth(parsed);
      if (read === null || second === null) expect([read, second], text).toEqual([null, null]);
      else expect(R.toFractionText(read), text).toBe(R.toFractionText(R.rational(second.toFraction())));
    }),
    { numRuns: 1500 },
  );
});

describe('units agree with those of mathjs', () => {
  const float = create(all!);
  test.each([
    ['7.8 g/cm^3', 'kg/m^3'],
    ['9.81 m s^-2', 'm/s^2'],
    ['2.5 in', 'm'],
    ['3 ft', 'm'],
    ['2 lb', 'kg'],
    ['1.2 N m', 'N m'],
    ['101 kPa', 'Pa'],
    ['4.2 J/(g K)', 'J/(kg K)'],
    ['72 km/h', 'm/s'],
    ['5 mL', 'm^3'],
    ['30 cm^2', 'm^2'],
    ['12 N/mm^2', 'Pa'],
    ['3 um', 'm'],
    ['6 W h', 'J'],
  ])('%s', (text, base) => {
    const parsed = parse(text, { names, mode: 'value' });
    const read = worth(parsed);
    expect(parsed.problems).toEqual([]);
    expect(read === null ? null : R.toNumber(read)).toBeCloseTo(float.unit(text).toNumber(base), 9);
  });
});

/** Pieces of formulas, right and wrong. */
const piece = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.constantFrom(
      '2.45',
      '3',
      '10',
      '1/20',
      '0,5',
      'cm',
      'mm',
      'min',
      's',
      'h',
      'm',
      'V',
      'D',
      'k',
      'LC',
      'x',
      'rho',
      '°',
      '′',
      '%',
    ),
  },
  {
    weight: 6,
    arbitrary: fc.constantFrom(
      '+',
      '-',
      '×',
      '/',
      '·',
      '^',
      '²',
      '(',
      ')',
      '|',
      '±',
      ',',
      '.',
      '–',
      '=',
      '[',
      ']',
      '√',
      '?',
      ':',
    ),
  },
  {
    weight: 2,
    arbitrary: fc.constantFrom(
      'sin',
      'sqrt',
      'mean(',
      'mod(',
      'abs',
      'pi',
      'nil',
      'observed reading',
      '__proto__',
      'constructor',
      'toString',
      'foo',
      'µN',
    ),
  },
  { weight: 2, arbitrary: fc.constantFrom('\\frac{', '}', '{', '\\sqrt{', '^{', '\\text{', '$', '**') },
  { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 3 }) },
);
const jumble = fc
  .array(fc.tuple(piece, fc.constantFrom('', ' ', ' ')), { maxLength: 14 })
  .map(pieces => pieces.flat().join(''));

test('anything is read or reported, at places within the text', () => {
  fc.assert(
    fc.property(jumble, fc.constantFrom('link', 'value'), (text, mode) => {
      const parsed = parse(text, { names: BENCH_NAMES, mode: mode as 'link', start: 50 });
      const inside = ({ start, end }: { start: number; end: number }) =>
        50 <= start && start <= end && end <= 50 + text.length;
      if (parsed.expression === null)
        expect(parsed.problems.length > 0 || tokenize(text, 0).tokens.length === 0, text).toBe(true);
      else
        expect(
          parsed.problems.every(problem => problem.rule === 'missing-unit'),
          text,
        ).toBe(true);
      for (const problem of parsed.problems) {
        expect(inside(problem.span), text).toBe(true);
        expect(problem.message).not.toMatch(/[.!]$/);
        for (const edit of problem.fixes.flatMap(fix => fix.edits))
          expect(inside(edit.span), text).toBe(true);
      }
      for (const span of parsed.spans.values()) expect(inside(span), text).toBe(true);
    }),
    { numRuns: 3000 },
  );
});

test('a fix removes what it mends', () => {
  fc.assert(
    fc.property(jumble, text => {
      for (const problem of parse(text, { names: BENCH_NAMES }).problems) {
        for (const fix of problem.fixes) {
          const mended = withFix(text, fix);
          const first = Math.min(...fix.edits.map(edit => edit.span.start));
          const growth = mended.length - text.length;
          const stays = parse(mended, { names: BENCH_NAMES }).problems.some(
            after =>
              after.rule === problem.rule &&
              after.message === problem.message &&
              first <= after.span.end &&
              after.span.start <= problem.span.end + growth,
          );
          expect(stays, `${text} → ${mended} (${problem.message})`).toBe(false);
        }
      }
    }),
    { numRuns: 3000 },
  );
});
