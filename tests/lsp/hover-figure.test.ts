import { describe, expect, it } from 'vitest';
import type { MarkupContent } from 'vscode-languageserver';
import { DEFAULT_SETTINGS } from '../../server/src/checks/settings.ts';
import { USUAL_SETTINGS } from '../../server/src/lsp/feature-settings.ts';
import { hoverAt } from '../../server/src/lsp/features/hover.ts';
import { openNoteAt } from '../support/open-note.ts';
import { RIGHT_NOTE } from '../support/workshop-notes.ts';

const STUDENT = { ...USUAL_SETTINGS, settings: { ...DEFAULT_SETTINGS, student: true } };
const IMAGE = /\n\n!\[([^\]]*)\]\(data:image\/svg\+xml;base64,([A-Za-z0-9+/=]+)\)$/;

function toldAt(words: string, settings = USUAL_SETTINGS, showsImages = true): string {
  const { open, offset } = openNoteAt(RIGHT_NOTE.replace(words, `‸${words}`));
  const contents = hoverAt(open, offset, true, settings, showsImages)?.contents;
  return (contents as MarkupContent | undefined)?.value ?? '';
}

describe('the figure at the pointer', () => {
  it.each(['observed reading =', 'coinciding division:', 'main scale reading:', 'corrected reading ='])(
    'stands below what is told of `%s`, small and on a ground of its own',
    words => {
      const told = toldAt(words);
      const [, , base64 = ''] = IMAGE.exec(told) ?? [];
      const svg = Buffer.from(base64, 'base64').toString('utf8');
      expect(svg).toMatch(/^<svg [\s\S]*<rect [^>]*fill="white"[\s\S]*<\/svg>$/);
      // What the editor shows without scrolling, and without cutting it off: tried there.
      expect(Number(/ height="(\d+)"/.exec(svg)?.[1])).toBeLessThanOrEqual(250);
      expect(told.length).toBeLessThan(100_000);
      expect(svg).toContain('2.484 cm');
    },
  );

  it('says of scales in letters why there is none', () => {
    const note =
      '```measurement scale\nw: any length\nmain scale: 1 MSD = w\nvernier scale: 10 VSD = 9 MSD\nMSR: 3 MSD\n‸n: 4\n```\n';
    const { open, offset } = openNoteAt(note);
    const contents = hoverAt(open, offset, true, USUAL_SETTINGS, true)?.contents;
    expect((contents as MarkupContent | undefined)?.value).toMatch(
      /\n\nThere is no figure of this block, because its scales are in letters, and a drawing needs numbers\.$/,
    );
  });

  it('gives a student nothing', () => {
    const told = toldAt('observed reading =', STUDENT);
    const [, words = '', base64 = ''] = IMAGE.exec(told) ?? [];
    const svg = Buffer.from(base64, 'base64').toString('utf8');
    expect(svg).toContain('<svg');
    expect(words + svg).not.toMatch(/2\.484|0\.034|in line|data-/);
  });

  it('is not shown for what nobody sees, nor to an editor that would show its letters', () => {
    expect(toldAt('least count =')).not.toContain('![');
    expect(toldAt('observed reading =', USUAL_SETTINGS, false)).not.toContain('![');
  });
});
