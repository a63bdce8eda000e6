import { expect, test } from 'vitest';
import { checkNote } from '../../server/src/checks/check.ts';

/** A block with these lines. */
function block(...lines: readonly string[]): string {
  return ['```measurement pivot', 'a: 1 cm', ...lines, '```', ''].join('\n');
}

test('a name of thousands of words is no name, and costs no more than its line', () => {
  const words = 'a '.repeat(9000);
  const { findings } = checkNote(
    block(`absolute error of ${words}= 1 cm`, `find: ${words}`, 'b = 2 a = 3 cm'),
  );
  expect(findings.map(({ rule }) => rule)).toContain('wrong-value');
});

test('a long sum of bare numbers beside a name is measured by its last link', () => {
  // 1 cm and 190 hundredths.
  const sum = Array.from({ length: 190 }, () => '0.01').join(' + ');
  expect(checkNote(block(`b = a + ${sum} = 2.90 cm`)).findings).toEqual([]);
});
