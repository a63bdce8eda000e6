import { describe, expect, test } from 'vitest';
import { readFenceHeader } from '../../server/src/language/fence-header.ts';

/** The header's name and where it stands, as marked text. */
function named(info: string): [boolean, string | null, string | null] {
  const { isMeasurement, name, nameSpan } = readFenceHeader(info, 3);
  return [isMeasurement, name, nameSpan === null ? null : info.slice(nameSpan.start - 3, nameSpan.end - 3)];
}

// Sources: CommonMark 0.31.2, 4.5 (the info string's first word is the language); Pandoc's manual, extension
// fenced_code_attributes, with the shortcut form before the braces. Names of several words: common practice, no source.
describe('the line that opens a block', () => {
  test.each([
    ['measurement', null, null],
    ['measurement axle-sleeve', 'axle-sleeve', 'axle-sleeve'],
    ['measurement  axle sleeve ', 'axle-sleeve', 'axle sleeve'],
    ['measurement\tq7', 'q7', 'q7'],
    ['Measurement Achshülse', 'Achshülse', 'Achshülse'],
    ['{.measurement #axle-sleeve}', 'axle-sleeve', 'axle-sleeve'],
    ['{#axle-sleeve .measurement}', 'axle-sleeve', 'axle-sleeve'],
    ['{ .measurement .wide #dish startFrom="5 6" }', 'dish', 'dish'],
    ['{.measurement}', null, null],
    ['measurement {#axle-sleeve .wide}', 'axle-sleeve', 'axle-sleeve'],
    ['measurement{#axle-sleeve}', 'axle-sleeve', 'axle-sleeve'],
  ])('%s', (info, name, place) => {
    expect(named(info)).toEqual([true, name, place]);
    expect(readFenceHeader(info, 3).problems).toEqual([]);
  });

  test.each([
    '',
    'py',
    'measurements',
    'measurement-table',
    'my measurement',
    '{.py #measurement}',
    '{measurement}',
  ])('no block: %j', info => {
    expect(named(info)).toEqual([false, null, null]);
  });

  test.each([
    ['measurement axle_sleeve', 'axle-sleeve', 'axle_sleeve'],
    ['measurement "axle sleeve"', 'axle-sleeve', '"axle sleeve"'],
    ['{.measurement #axle.sleeve}', 'axle-sleeve', 'axle.sleeve'],
  ])('a name with other characters is mended: %s', (info, name, place) => {
    expect(named(info)).toEqual([true, name, place]);
    const [problem] = readFenceHeader(info, 3).problems;
    expect(problem?.rule).toBe('not-plain');
    const edit = problem!.fixes[0]!.edits[0]!;
    const mended = info.slice(0, edit.span.start - 3) + edit.newText + info.slice(edit.span.end - 3);
    expect(named(mended)).toEqual([true, name, name]);
    expect(readFenceHeader(mended, 3).problems).toEqual([]);
  });

  test('a name without a letter or digit is none', () => {
    expect(named('measurement ???')).toEqual([true, null, null]);
    expect(readFenceHeader('measurement ???', 3).problems.map(problem => problem.rule)).toEqual([
      'not-plain',
    ]);
  });

  test('a stray word between the braces is said', () => {
    const { name, problems } = readFenceHeader('{.measurement #axle sleeve}', 3);
    expect(name).toBe('axle');
    expect(problems.map(problem => [problem.rule, problem.span])).toEqual([
      ['not-plain', { start: 23, end: 29 }],
    ]);
  });
});
