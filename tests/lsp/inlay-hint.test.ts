import { describe, expect, it } from 'vitest';
import type { InlayHint } from 'vscode-languageserver';
import { DEFAULT_SETTINGS } from '../../server/src/checks/settings.ts';
import { type FeatureSettings, USUAL_SETTINGS } from '../../server/src/lsp/feature-settings.ts';
import { inlayHintsOf } from '../../server/src/lsp/features/inlay-hint.ts';
import { editedText } from '../support/edited-text.ts';
import { lspClient } from '../support/lsp-client.ts';
import { openNote } from '../support/open-note.ts';

const OPEN = `> \`\`\`measurement spoke
> main scale: 1 mm = 1 MSD
> vernier scale: 20 VSD = 19 MSD   # of the old pair
> closed: vernier zero left, division 18
> | MSR (mm) | n | observed reading (mm) | corrected reading |
> |----------|---|-----------------------|-------------------|
> | 4        | 7 | ?                     | ?                 |
> mean corrected reading = ?
> \`\`\`
`;

function hints(text: string, settings: FeatureSettings = USUAL_SETTINGS): readonly string[] {
  const lines = text.split('\n');
  return inlayHintsOf(openNote(text), { start: 0, end: text.length }, settings).map(
    ({ label, position }) => `${lines[position.line]?.slice(2, position.character).trim()} [${label}]`,
  );
}

/** A twentieth of a millimetre; the zero stands two lines short of it: 20 - 18; 4 mm and seven twentieths. By hand. */
const ALL = [
  'vernier scale: 20 VSD = 19 MSD [LC = 0.05 mm]',
  'closed: vernier zero left, division 18 [zero error -0.10 mm]',
  '| 4        | 7 | ? [4.35]',
  '| 4        | 7 | ?                     | ? [4.45 mm]',
  'mean corrected reading = ? [4.45 mm]',
];

describe('values shown in a note', () => {
  it('stand beside what asks for them, the scales and the zero check', () => {
    expect(hints(OPEN)).toEqual(ALL);
    expect(hints('# No block, = ?\n')).toEqual([]);
    expect(hints('```measurement\nleast count = ?\nclosed: zeros coincide\n```\n')).toEqual([
      expect.stringContaining('zero error'),
    ]);
  });

  it('are left out where the block says them itself, right or wrong, but not for an `= ?`', () => {
    const screw = (leastCount: string, zeroError: string, check = 'division 46'): readonly string[] =>
      hints(
        [
          '```measurement hub',
          'pitch: 0.5 mm',
          'circular scale: 50 divisions',
          leastCount,
          `closed: circular zero above the line, ${check}`,
          zeroError,
          '```',
        ].join('\n'),
      ).map(hint => hint.slice(hint.lastIndexOf('[')));
    // Half a millimetre in 50 parts; 46 is 4 of them short of the zero. By hand.
    expect(screw('', '')).toEqual(['[LC = 0.01 mm]', '[zero error -0.04 mm]']);
    expect(screw('least count = 0.01 mm', '')).toEqual(['[zero error -0.04 mm]']);
    expect(screw('least count = 0.5 mm / 50 = 0.02 mm', '')).toEqual(['[zero error -0.04 mm]']);
    expect(screw('least count: 0.01 mm', '')).toEqual(['[zero error -0.04 mm]']);
    expect(screw('', 'zero error = +0.04 mm')).toEqual(['[LC = 0.01 mm]']);
    expect(screw('least count = 0.01 mm', 'zero error = -0.04 mm')).toEqual([]);
    expect(screw('least count = ?', 'zero error = -0.04 mm')).toEqual(['[LC = 0.01 mm]', '[0.01 mm]']);
    // Of two checks the claim is about the mean, and each is shown by itself.
    const twice = 'division 46\nclosed: circular zero above the line, division 48';
    expect(screw('least count = 0.01 mm', 'zero error = -0.03 mm', twice)).toEqual([
      '[zero error -0.04 mm]',
      '[zero error -0.02 mm]',
    ]);
  });

  it('are each switched by themselves, and none is shown to a student', () => {
    const without = (what: keyof FeatureSettings['inlayHints']): FeatureSettings => ({
      ...USUAL_SETTINGS,
      inlayHints: { ...USUAL_SETTINGS.inlayHints, [what]: false },
    });
    expect(hints(OPEN, without('leastCount'))).toEqual(ALL.slice(1));
    expect(hints(OPEN, without('zeroError'))).toEqual(ALL.filter((_, at) => at !== 1));
    expect(hints(OPEN, without('answers'))).toEqual(ALL.slice(0, 2));
    const student = { ...USUAL_SETTINGS, settings: { ...DEFAULT_SETTINGS, student: true } };
    expect(hints(OPEN, student)).toEqual([]);
  });

  it('show degrees and minutes where the block writes them, and each of two zero checks by itself', () => {
    const arc = `\`\`\`measurement
main scale: 1 MSD = 10′
vernier scale: 60 VSD = 59 MSD
closed: 13 divisions off the arc
closed: 3 divisions on the arc
MSR: 47° 20′
n: 31
observed reading = ?
\`\`\`
`;
    const texts = inlayHintsOf(openNote(arc), { start: 0, end: arc.length }).map(({ label }) => label);
    // A sixtieth of 10′ is 10″; 13 and 3 of them; 31 of them are 5′ 10″.
    expect(texts).toEqual(['LC = 10″', 'zero error -2′ 10″', 'zero error +30″', '47° 25′ 10″']);
  });

  it('are the same for a long note, of which only what changes is looked at again', () => {
    const long = Array.from({ length: 40 }, (_, at) => OPEN.replace('spoke', `spoke-${at}`)).join('\n');
    const open = openNote(long);
    const whole = { start: 0, end: long.length };
    const first = inlayHintsOf(open, whole);
    expect(first.map(({ label }) => label)).toHaveLength(40 * ALL.length);
    expect(inlayHintsOf(open, whole)).toEqual(first);
    const moved = `A line above.\n${long.replace('> | 4        | 7 |', '> | 4        | 8 |')}`;
    const after = inlayHintsOf({ document: openNote(moved).document, text: moved }, whole);
    expect(after[2]?.label).toBe('4.40');
    expect(after[7]?.label).toBe('4.35');
  });

  it('go over the wire, and can be written into the note', async () => {
    const client = await lspClient();
    const uri = 'untitled:note';
    client.open(uri, OPEN);
    const range = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
    const found = await client.request<InlayHint[]>('textDocument/inlayHint', {
      textDocument: { uri },
      range,
    });
    expect(found.map(({ label }) => label)).toHaveLength(ALL.length);
    const text = editedText(
      OPEN,
      found.flatMap(({ textEdits }) => textEdits ?? []),
    );
    expect(text).toContain('| 4        | 7 | 4.35                     | 4.45 mm                 |');
    client.open('untitled:right', text);
    expect(await client.pulled('untitled:right')).toMatchObject({ items: [] });
    const part = { start: { line: 7, character: 0 }, end: { line: 8, character: 0 } };
    expect(
      await client.request('textDocument/inlayHint', { textDocument: { uri }, range: part }),
    ).toMatchObject([{ label: '4.45 mm', paddingLeft: true }]);
  });
});
