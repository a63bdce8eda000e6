import { describe, expect, test } from 'vitest';
import { BENCH_NAMES, literalValue, parse, tree } from '../support/parse-expression.ts';

// Source of the accepted forms: the language page, "Values" and "How people really type"; values worked out by hand.

const names = BENCH_NAMES;

describe('a word that is a unit as well as a name', () => {
  test('after a number both readings are for the caller to try', () => {
    const asUnit = parse('a / (6 h)', { names });
    expect([...asUnit.ambiguousWords]).toEqual(['h']);
    expect(tree(asUnit.expression)).toBe('(a / 6 h)');
    const asName = parse('a / (6 h)', { names, asNames: new Set(['h']) });
    expect(tree(asName.expression)).toBe('(a / (6 × h))');
    expect(asName.hasUnit).toBe(false);
  });

  test('one word is read alike throughout a link', () => {
    const parsed = parse('l^2/(6h) + h/2', { names });
    expect([...parsed.ambiguousWords]).toEqual([]);
    expect(tree(parsed.expression)).toBe('(((l ^ 2) / (6 × h)) + (h / 2))');
  });

  test('in a record it is a unit, and so it is in a link that is one value', () => {
    expect(literalValue(parse('6 h', { names, mode: 'value' }).expression)).toBe('21600 h, 3600');
    expect(parse('6 h', { names }).isValue).toBe(true);
  });

  test('words that are units only, or names only, are in no doubt', () => {
    expect([...parse('a × 6 mm', { names }).ambiguousWords]).toEqual([]);
    expect([...parse('a × 6 k', { names }).ambiguousWords]).toEqual([]);
  });

  test('a unit needs a number before it', () => {
    expect(tree(parse('V / n', { names }).expression)).toBe('(V / n)');
    expect(tree(parse('a cm', { names }).expression)).toBe('(a × ?cm)');
  });
});
