import { describe, expect, test } from 'vitest';
import { checkNote } from '../../server/src/checks/check.ts';

/** A chain of blocks, each of which uses the one above it; the first has the scales and a length. */
function chain(length: number): string {
  const first = [
    'main scale: 1 mm = 1 MSD',
    'vernier scale: 20 VSD = 19 MSD',
    'zero error: +0.10 mm',
    'l: 12.50 mm',
  ];
  const blocks = Array.from({ length }, (_, index) => {
    const lines = index === 0 ? first : [`uses: pivot-${index - 1}`];
    return [`\`\`\`measurement pivot-${index}`, ...lines, '```', ''].join('\n');
  });
  const last = ['```measurement last', `uses: pivot-${length - 1}`, 'q = 2 l = 25.00 mm', '```', ''];
  return [...blocks, last.join('\n')].join('\n');
}

describe('blocks that use one another', () => {
  test.each([1, 7, 20])('hand names and values on through %i of them', length => {
    expect(checkNote(chain(length)).findings).toEqual([]);
  });

  test('are read up to the bound, and what is past it is told as that', () => {
    const { findings } = checkNote(chain(24));
    expect(findings.filter(({ rule }) => rule === 'circular-reference')).toEqual([]);
    expect(findings.filter(({ rule }) => rule === 'limit').map(({ message }) => message)).toContain(
      'more than 20 blocks use one another here, so nothing of pivot-20 is taken over',
    );
  });
});
