import { describe, expect, it } from 'vitest';
import { checkNote } from '../../server/src/checks/check.ts';

/** A block that names a quantity, and one that uses it by that name. */
function noteOf(given: string, used: string): string {
  return `\`\`\`measurement hub
${given}: 2 cm
\`\`\`

\`\`\`measurement rim
u = ${used} of hub / 2 = 1 cm
\`\`\`
`;
}

describe("another block's quantity", () => {
  it.each([
    ['k', 'k'],
    ['tau', 'tau'],
    ['d1', 'd1'],
    ['wall thickness tw', 'tw'],
    ['wall thickness tw', 'wall thickness'],
    ['rim gauge', 'rim gauge'],
  ])('given as %s is known as %s, though nothing here is called so', (given, used) => {
    expect(checkNote(noteOf(given, used)).findings).toEqual([]);
  });

  it('is not known by a name that it has not', () => {
    expect(checkNote(noteOf('tau', 'theta')).findings.map(({ rule }) => rule)).toEqual(['unknown-block']);
  });
});
