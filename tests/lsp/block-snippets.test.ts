import { describe, expect, it } from 'vitest';
import { checkNote } from '../../server/src/checks/check.ts';
import { INSTRUMENTS } from '../../server/src/language/instruments.ts';
import { BLOCK_SNIPPETS, snippetLines } from '../../server/src/lsp/completion/block-snippets.ts';
import { bodyOffers, fenceOffers, openingLine } from '../../server/src/lsp/completion/fence-offers.ts';
import { withoutPlaces } from '../../server/src/lsp/completion/offer.ts';
import { inlayHintsOf } from '../../server/src/lsp/features/inlay-hint.ts';
import { openNote } from '../support/open-note.ts';

describe('a whole block about an instrument', () => {
  it('stands ready for each of the trade', () => {
    expect(BLOCK_SNIPPETS.map(({ instrument }) => instrument)).toEqual(INSTRUMENTS.map(({ name }) => name));
  });

  for (const snippet of BLOCK_SNIPPETS) {
    it(`is right as it stands, and every question in it has an answer: ${snippet.instrument}`, () => {
      const body = snippetLines(snippet).map(withoutPlaces).join('\n');
      const note = `\`\`\`measurement bench\n${body}\n\`\`\`\n`;
      expect(checkNote(note).findings).toEqual([]);
      const answers = inlayHintsOf(openNote(note), { start: 0, end: note.length }).filter(
        ({ textEdits }) => textEdits !== undefined,
      );
      expect(answers).toHaveLength(body.split('?').length - 1);
    });
  }

  it('has its places in the order of its lines, each number once', () => {
    for (const { insert } of [
      ...fenceOffers({ from: 0, typed: '', mark: '```', prefix: '', isClosed: false }),
    ]) {
      const numbers = [...insert.matchAll(/\$\{(\d+):/g)].map(([, number]) => Number(number));
      expect(numbers).toEqual(numbers.map((_, at) => at + 1));
    }
  });
});

describe('the line that opens a fence', () => {
  const at = (marked: string) => openingLine(marked.replace('‸', ''), marked.indexOf('‸'));

  it('is one where nothing but the beginning of the word stands behind its characters', () => {
    for (const marked of [
      '```‸',
      'Text\n\n~~~~ mea‸\n',
      '> ```m‸',
      '- ```‸\n',
      '  1. ```meas‸',
      '```\na\n```\n\n```‸',
    ])
      expect(at(marked), marked).not.toBeNull();
    for (const marked of [
      '``‸',
      '```js‸',
      'a ```‸',
      '```\na\n```‸',
      '```measurement‸',
      '```mea‸x',
      '~~~\n```‸',
    ])
      expect(at(marked), marked).toBeNull();
  });

  it('gets a closing line of its own kind, behind the quote and list marks of the block', () => {
    const [word, calipers] = fenceOffers(at('> - ~~~~‸')!);
    expect(withoutPlaces(word!.insert)).toBe('measurement name\n>   \n>   ~~~~');
    expect(withoutPlaces(calipers!.insert)).toContain('\n>   instrument: vernier calipers\n>   main scale');
    expect(fenceOffers(at('```‸\n```\n')!)[0]?.insert).toBe('measurement');
    expect(bodyOffers('> ', 0)[0]?.insert).toContain('\n> main scale: ');
  });
});
