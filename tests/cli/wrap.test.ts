import fc from 'fast-check';
import stringWidth from 'string-width';
import { expect, it } from 'vitest';
import { wrap } from '../../server/src/cli/wrap.ts';

it('breaks between words', () => {
  expect(wrap('the least count is 0.02 mm', 12, stringWidth)).toEqual(['the least', 'count is', '0.02 mm']);
  expect(wrap('漢字 漢字', 5, stringWidth)).toEqual(['漢字', '漢字']);
  expect(wrap('', 5, stringWidth)).toEqual(['']);
});

it('loses nothing and passes its room only for a single word', () => {
  fc.assert(
    fc.property(fc.array(fc.string({ unit: fc.constantFrom('a', 'b', '漢') })), fc.nat(30), (words, room) => {
      const lines = wrap(words.join(' '), room, stringWidth);
      expect(lines.join(' ')).toBe(words.join(' '));
      for (const line of lines) expect(line.includes(' ') ? stringWidth(line) <= room : true).toBe(true);
    }),
    { numRuns: 500 },
  );
});
