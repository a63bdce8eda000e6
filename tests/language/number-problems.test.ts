import { describe, expect, test } from 'vitest';
import { withFix } from '../support/fixes.ts';
import { BENCH_NAMES, parse } from '../support/parse-expression.ts';

// Source of the accepted forms: the language page, "Values" and "How people really type"; values worked out by hand.

const names = BENCH_NAMES;

describe('what has two readings is not read, and both are offered', () => {
  test.each([
    ['pi D^2 / 4 l', ['(pi D^2 / 4) l', 'pi D^2 / (4 l)']],
    ['w/2k', ['(w/2)k', 'w/(2k)']],
    ['1/2 m v^2', ['(1/2) m v^2', '1/(2 m v^2)']],
    ['a / 2(b + c)', ['(a / 2)(b + c)', 'a / (2(b + c))']],
    ['l^2/6h + h/2', ['(l^2/6)h + h/2', 'l^2/(6h) + h/2']],
    ['6 / 2 × 10^3', ['(6 / 2) × 10^3', '6 / (2 × 10^3)']],
    ['3·2 cm', ['3.2 cm', '3 × 2 cm']],
    ['3 4', ['3 × 4', '34']],
    ['D 3', ['D × 3']],
    ['3 m 20 cm', ['3 m + 20 cm', '3 m × 20 cm']],
    ['2 375/1000 in', ['(2 + 375/1000) in', '2375/1000 in']],
    ['2 3/8 D', ['(2 3/8) D']],
    ['sin 2θ', ['sin (2θ)', 'sin (2)θ']],
    ['√2 a', ['√(2 a)', '√(2) a']],
    ['sin θ^2', ['sin (θ^2)', 'sin (θ)^2']],
    ['sin θ²', ['sin (θ²)', 'sin (θ)²']],
    ['3.58(2) mm', ['3.58 ± 0.02 mm', '3.58 × 2 mm']],
    ['12 345 6789', ['12 345 × 6789']],
  ])('%s', (text, offered) => {
    const parsed = parse(text, { names });
    expect(parsed.expression).toBeNull();
    expect(parsed.problems.map(problem => problem.rule)).toEqual(['ambiguous-expression']);
    const [problem] = parsed.problems;
    expect(problem?.fixes.map(fix => withFix(text, fix))).toEqual(offered);
    expect(problem?.fixes.some(fix => fix.sure)).toBe(false);
    for (const after of offered)
      expect(parse(after, { names, asNames: new Set(['m']) }).problems).toEqual([]);
  });
});

describe('what cannot be read says why, and what was surely meant is one key away', () => {
  test.each([
    ['0,5 mm', 'unreadable-line', '0.5 mm'],
    ['-0,48 mm', 'unreadable-line', '-0.48 mm'],
    ['mean(2,5, 3,5)', 'unreadable-line', 'mean(2.5, 3,5)'],
    ['17x0.02 mm', 'unreadable-line', '17 × 0.02 mm'],
    ['2.45 cm.', 'unreadable-line', '2.45 cm'],
    ['1.06 g ± 0.01', 'missing-unit', '1.06 g ± 0.01 g'],
  ])('%s', (text, rule, after) => {
    const parsed = parse(text, { names });
    const [problem] = parsed.problems;
    expect(problem?.rule).toBe(rule);
    expect(problem?.fixes).toHaveLength(1);
    expect(problem?.fixes[0]?.sure).toBe(true);
    expect(problem?.fixes.map(fix => withFix(text, fix))).toEqual([after]);
  });

  test('a comma that may group thousands is offered both ways', () => {
    const [problem] = parse('1,195 mm', { names }).problems;
    expect(problem?.fixes.map(fix => [withFix('1,195 mm', fix), fix.sure])).toEqual([
      ['1.195 mm', false],
      ['1195 mm', false],
    ]);
    expect(parse('1,195,635 mm', { names }).problems[0]?.fixes.map(fix => fix.edits[0]?.newText)).toEqual([
      '1195635',
    ]);
  });

  test('all commas of a link are found at once', () => {
    expect(parse('0,5 - 0,48 mm', { names }).problems).toHaveLength(2);
  });

  test.each([
    ['2 +', 2, 'a value is missing behind +'],
    ['(2 + 3', 0, 'this bracket is never closed'],
    ['|2 + 3', 0, 'this bar is never closed'],
    ['2 + 3)', 5, 'this ) closes a bracket that was never opened'],
    ['2.3–2.4 cm', 3, 'a dash between two numbers says a range'],
    ['2 ± 3 ± 4', 6, 'an error after ± stands once'],
    ['a °', 2, '° needs a number right before it'],
    ['^2', 0, 'an exponent needs a value right before it'],
    ['2, 3', 1, 'a comma separates values in mean(…) and mod(…) only'],
    ['mod(2)', 0, 'mod takes two values'],
    ['sin^n(2)', 3, 'behind sin stands 2 for the square'],
    ['5 kg m^n', 6, 'a unit takes a whole number'],
    ['2 × / 3', 4, 'a value is wanted where / stands'],
    ['2 = 3', 2, '= cannot stand here'],
    ['2 ± a', 2, 'behind ± stands a number'],
  ])('%s', (text, start, message) => {
    const parsed = parse(text, { names });
    expect(parsed.expression).toBeNull();
    expect(parsed.problems.map(problem => problem.rule)).toEqual(['unreadable-line']);
    expect(parsed.problems[0]?.message).toContain(message);
    expect(parsed.problems[0]?.span.start).toBe(start);
  });

  test('messages are one breath without a final stop', () => {
    for (const text of [
      '2 +',
      '3 4',
      '0,5',
      'w/2k',
      'sin 2θ',
      '2.3–2.4',
      '3·2',
      '2 ± a',
      '(2',
      `${'7'.repeat(99)}`,
    ]) {
      for (const { message } of parse(text, { names }).problems) {
        expect(message).not.toMatch(/[.!]$/);
        expect(message).not.toContain('\n');
        expect(message.length).toBeLessThan(240);
      }
    }
  });
});

describe('limits', () => {
  test.each([
    ['digits', '7'.repeat(61)],
    ['decimals', `0.${'3'.repeat(60)}`],
    ['exponent', '1e61'],
    ['negative exponent', '1e-61'],
    ['a very long exponent', `1e${'9'.repeat(5000)}`],
    ['power of ten', '2 × 10^61'],
    ['power of ten alone', '10^-61'],
    ['power of ten, far out', `10^${'9'.repeat(5000)}`],
    ['tokens', '1 + '.repeat(200).concat('1')],
    ['brackets', `${'('.repeat(41)}1${')'.repeat(41)}`],
    ['exponents', `${'2^'.repeat(45)}2`],
    ['bars', `${'|'.repeat(60)}1`],
    ['roots', `${'√'.repeat(60)}2`],
    ['means', `${'mean('.repeat(60)}1`],
  ])('%s', (_, text) => {
    const parsed = parse(text, { names });
    expect(parsed.expression).toBeNull();
    expect(parsed.problems.map(problem => problem.rule)).toEqual(['limit']);
  });

  test('up to the limits everything is read', () => {
    for (const text of [
      '7'.repeat(60),
      '1e60',
      '2 × 10^-60',
      `${'('.repeat(39)}1${')'.repeat(39)}`,
      '1 + '.repeat(199).concat('1'),
    ]) {
      expect(parse(text, { names }).problems).toEqual([]);
    }
  });
});
