import { expect, test } from 'vitest';
import { INSTRUMENTS } from '../../server/src/language/instruments.ts';
import { BLOCK_SNIPPETS } from '../../server/src/lsp/completion/block-snippets.ts';
import { drawnFigure } from './drawn-figure.ts';
import { ofClass, piecesOf, readXml, strokesOf } from './read-figure.ts';

const UPRIGHT = ['height gauge', 'depth gauge', 'barometer'];

/** Every name under which the trade knows an instrument, with the block that is offered for it. */
const NAMES = INSTRUMENTS.flatMap(({ name, also }) => [name, ...also].map(word => [word, name] as const));

test.each(NAMES)('a block about a %s is drawn as a question and with its reading', (word, name) => {
  const snippet = BLOCK_SNIPPETS.find(({ instrument }) => instrument === name)!;
  const lines = snippet.lines.map(line =>
    line.replace(/[⟨⟩]/g, '').replace(/^instrument: .*/, `instrument: ${word}`),
  );
  for (const style of ['question', 'worked'] as const) {
    for (const small of [false, true]) {
      const root = readXml(drawnFigure(lines, { style, small }).svg);
      expect(root.inside[0]!.text).toContain(word);
      expect(['scale', 'drum'].some(marks => strokesOf(root, marks).length > 3)).toBe(true);
      expect(ofClass(root, 'coincidence').length > 0).toBe(style === 'worked');
      const said = piecesOf(root).some(({ text }) => text.includes('observed reading ='));
      expect(said).toBe(style === 'worked');
    }
  }
  const { alternative } = drawnFigure(lines, {});
  expect(alternative.includes('standing upright')).toBe(UPRIGHT.includes(name));
});
