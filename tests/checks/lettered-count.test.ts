import { describe, expect, it } from 'vitest';
import { checkNote } from '../../server/src/checks/check.ts';

function rulesOf(letter: string, leastCount: string): readonly string[] {
  const lines = [
    `${letter}: any whole number`,
    'main scale: 1 MSD = 1 mm',
    `vernier scale: ${letter} VSD = (${letter} - 1) MSD`,
    `least count = ${leastCount}`,
  ];
  const { findings } = checkNote(`\`\`\`measurement sleeve\n${lines.join('\n')}\n\`\`\`\n`);
  return findings.map(({ rule }) => rule);
}

describe('a letter for the number of divisions', () => {
  // 1 mm - (N - 1)/N × 1 mm = 1 mm/N, also where the letter is a unit's sign: newton, metre.
  for (const letter of ['N', 'n', 'k', 'm']) {
    it(`may be ${letter}`, () => {
      expect(rulesOf(letter, `1 mm / ${letter}`)).toEqual([]);
      expect(rulesOf(letter, `2 mm / ${letter}`)).toEqual(['wrong-value']);
    });
  }
});
