import { describe, expect, it } from 'vitest';
import type { Hover, MarkupContent } from 'vscode-languageserver';
import { DEFAULT_SETTINGS } from '../../server/src/checks/settings.ts';
import { USUAL_SETTINGS } from '../../server/src/lsp/feature-settings.ts';
import { hoverAt } from '../../server/src/lsp/features/hover.ts';
import { placeOf } from '../support/edited-text.ts';
import { lspClient } from '../support/lsp-client.ts';
import { openNoteAt } from '../support/open-note.ts';
import { RIGHT_NOTE } from '../support/workshop-notes.ts';

const NOTE = 'untitled:axle';
const textOf = (hover: Hover | null): string => (hover?.contents as MarkupContent | undefined)?.value ?? '';

const STUDENT = { ...USUAL_SETTINGS, settings: { ...DEFAULT_SETTINGS, student: true } };

/** What is told at the cursor `‸` of a note. */
function told(marked: string, isMarkdown = true, settings = USUAL_SETTINGS): string {
  const { open, offset } = openNoteAt(marked);
  return textOf(hoverAt(open, offset, isMarkdown, settings));
}

const sleeve = (from: string, to: string): string => told(RIGHT_NOTE.replace(from, to));

describe('what is told at the pointer', () => {
  it('is the working of the claim there, as plain text in a code block', async () => {
    const client = await lspClient();
    client.open(NOTE, RIGHT_NOTE);
    const claim = 'observed reading = 2.45 cm + 17 × 0.002 cm = 2.484 cm';
    const { start, end } = placeOf(RIGHT_NOTE, claim);
    const hover = await client.hover(NOTE, { ...end, character: end.character - 1 });
    expect(hover?.contents).toMatchObject({ kind: 'markdown' });
    expect(textOf(hover)).toMatch(/^```text\n[^$`]+\n```$/);
    // The reading of the workshop's own note: 2.45 cm and 17 times a fiftieth of a millimetre.
    expect(textOf(hover)).toContain('2.484 cm');
    expect(hover?.range).toEqual(placeOf(RIGHT_NOTE, claim));
    // On its name the meaning of that stands below.
    expect(textOf(await client.hover(NOTE, start))).toMatch(/2\.484 cm\n```\n\n\*\*observed reading\*\*/);
  });

  it('is plain for an editor that shows nothing else', async () => {
    const client = await lspClient({ textDocument: { hover: { contentFormat: ['plaintext'] } } });
    client.open(NOTE, RIGHT_NOTE);
    const hover = await client.hover(NOTE, placeOf(RIGHT_NOTE, 'least count =').start);
    expect(hover?.contents).toMatchObject({ kind: 'plaintext' });
    expect(textOf(hover)).not.toMatch(/[`*]/);
    expect(textOf(hover)).toContain('0.02 mm');
  });

  it('is told of a claim in the prose as well', async () => {
    const client = await lspClient();
    const prose = `${RIGHT_NOTE}\nSo \`corrected reading of axle-sleeve = 2.478 cm\`.\n`;
    client.open(NOTE, prose);
    const there = placeOf(prose, 'corrected reading of axle-sleeve').start;
    expect(textOf(await client.hover(NOTE, there))).toContain('2.478 cm');
  });

  it('is nothing beside the blocks, on their fences and on values that are only words', async () => {
    const client = await lspClient();
    client.open(NOTE, RIGHT_NOTE);
    for (const piece of ['# The sleeve', '```measurement', 'zero right'])
      expect(await client.hover(NOTE, placeOf(RIGHT_NOTE, piece).start)).toBeNull();
  });
});

describe('a word of the trade', () => {
  it('is told with its meaning, formula, unit, sign and value, whichever name stands for it', () => {
    // 25 divisions of the vernier cover 24 of 0.05 cm: 0.048 cm each.
    expect(sleeve('- V =', '- ‸V =')).toBe(
      [
        '**vernier scale division** (`VSD`, `V`, `vernier scale divisions`, `vernier division`)',
        'The value of one division of the vernier scale.',
        '- Formula: for N VSD = M MSD: M × MSD / N\n- Unit: a length or an angle\n- In this block: `0.048 cm`',
      ].join('\n\n'),
    );
    expect(sleeve('main scale: 1', 'main ‸scale: 1')).toContain('- In this block: `1 MSD = 0.05 cm`');
    expect(sleeve('closed: v', 'clo‸sed: v')).toContain('- In this block: `zero error = +0.06 mm`');
    expect(sleeve('zero correction =', 'zero ‸correction =')).toContain('- Sign: opposite to the zero error');
  });

  it('is told in the head of a table and in its cells', () => {
    const table =
      '```measurement\nmain scale: 1 mm = 1 MSD\nvernier scale: 10 VSD = 9 MSD\n| MSR | n | OR |\n|--|--|--|\n| 4 mm | 3 | ? |\n```\n';
    expect(told(table.replace('| MSR', '| M‸SR'))).toMatch(
      /^\*\*main scale reading\*\*(?![\s\S]*In this block)/,
    );
    expect(told(table.replace('| 4 mm', '| 4 ‸mm'))).toContain('- In this block: `4 mm`');
    expect(told(table.replace('| ?', '| ‸?'))).toContain('4 mm + 3 × 0.1 mm = 4.3 mm');
  });

  it('is told of a unit as nothing, and of a quantity of one’s own with its error', () => {
    const block =
      '```measurement\nm: 1.06 g ± 0.01 g\nv: 0.136 cm^3\ndensity rho = m / v = 7.79 g/cm^3\n```\n';
    expect(told(block.replace('= m /', '= ‸m /'))).toBe('**m**\n\n- In this block: `1.06 g ± 0.01 g`');
    expect(told(block.replace('1.06 g ±', '1.06 ‸g ±'))).toBe('');
    expect(told(block.replace('= 7.79', '= ‸7.79'))).toContain(
      'rho = m / v = 1.06 g / 0.136 cm^3 ≈ 7.79 g/cm^3',
    );
  });

  it('is told in degrees and minutes where the block writes them, its error too', () => {
    const angle = 'theta: 24° 31′ ± 1′\nphi = 2 ‸theta = 49° 2′';
    expect(told(`\`\`\`measurement\n${angle}\n\`\`\`\n`)).toBe(
      '**theta**\n\n- In this block: `24° 31′ ± 1′`',
    );
  });

  it('is not told as another name of itself', () => {
    const mean = '‸mean corrected reading = ?';
    expect(told(`\`\`\`measurement\n${mean}\n\`\`\`\n`)).not.toContain('`mean corrected reading`,');
  });

  it('is told of another block with the value there', () => {
    const note = `${RIGHT_NOTE}\n\`\`\`measurement\nd = corrected ‸reading of axle-sleeve = 2.478 cm\n\`\`\`\n`;
    expect(told(note)).toMatch(
      /^\*\*corrected reading of axle-sleeve\*\*[\s\S]*- In axle-sleeve: `2.478 cm`$/,
    );
  });
});

describe('an instrument', () => {
  it('is told with the usual caution, below the rules of the place', () => {
    const text = sleeve('instrument: vernier', 'instrument: ‸vernier');
    expect(text).toContain('points of the jaws are sharp');
    expect(text).toContain('the local rules and the teacher in charge come first');
    expect(told('```measurement\ninstrument: mercury ‸barometer\n```\n')).toContain('poisonous');
    expect(told('```measurement\ninstrument: ‸ruler\n```\n')).toBe('');
  });
});

describe('what cannot be told', () => {
  it('is what is missing, where a claim is undetermined', () => {
    const text = told('```measurement\nmain scale: 1 cm = 10 MSD\nzero error = ‸?\n```\n');
    expect(text).toMatch(/closed/);
    expect(text).not.toContain('```');
  });

  it('is any value, for a student', () => {
    for (const [from, to] of [
      ['= 2.484', '= ‸2.484'],
      ['- V =', '- ‸V ='],
      ['closed: v', 'clo‸sed: v'],
      ['reading = 2.478', 'read‸ing = 2.478'],
    ] as const) {
      const text = told(RIGHT_NOTE.replace(from, to), true, STUDENT);
      expect(text).toContain('**');
      expect(text).not.toMatch(/\d\.\d/);
    }
  });

  it('is Markdown of the writer’s making', () => {
    const note = '```measurement\na_b: 3 mm\nq = a_b × ‸zz<b>*x* = 3 mm\n```\n';
    expect(told(note)).not.toMatch(/(?<!\\)[<*]/);
  });
});
