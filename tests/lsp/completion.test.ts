import { describe, expect, it } from 'vitest';
import type { CompletionItem, CompletionList, MarkupContent, TextEdit } from 'vscode-languageserver';
import { checkNote } from '../../server/src/checks/check.ts';
import { DEFAULT_SETTINGS, type Settings } from '../../server/src/checks/settings.ts';
import { withoutPlaces } from '../../server/src/lsp/completion/offer.ts';
import { type Offers, offersAt } from '../../server/src/lsp/completion/offers-at.ts';
import { editedText, positionOf } from '../support/edited-text.ts';
import { lspClient, MODERN } from '../support/lsp-client.ts';
import { openNoteAt } from '../support/open-note.ts';

const CALIPERS = 'instrument: vernier calipers\nmain scale: 1 mm = 1 MSD\nvernier scale: 10 VSD = 9 MSD\n';
const OTHER = '\n```measurement other-part\nrho: 3 g/cm^3\n| label | MSR |\n|--|--|\n| left | 2 mm |\n```\n';

function found(
  marked: string,
  trigger: string | null = null,
  settings: Settings = DEFAULT_SETTINGS,
): Offers | null {
  const { open, offset } = openNoteAt(`\`\`\`measurement axle\n${marked}\n\`\`\`\n${OTHER}`);
  return offersAt(open, offset, trigger, settings);
}

function labels(...asked: Parameters<typeof found>): readonly string[] {
  const offers = found(...asked)?.offers ?? [];
  return offers.toSorted((a, b) => a.rank - b.rank).map(({ label }) => label);
}

describe('where a line begins', () => {
  it('offers first what the instrument wants next: scales, zero check, readings, what is worked out', () => {
    const first = (text: string): string | undefined => labels(`${text}‸`)[0];
    expect(first('')).toBe('instrument');
    expect(first('instrument: vernier calipers\n')).toBe('main scale');
    expect(first('instrument: vernier calipers\nmain scale: 1 mm = 1 MSD\n')).toBe('vernier scale');
    expect(first('instrument: screw gauge\n')).toBe('screw');
    expect(first('instrument: screw gauge\npitch: 0.5 mm\n')).toBe('circular scale');
    expect(first(CALIPERS)).toBe('closed');
    expect(first(`${CALIPERS}closed: zeros coincide\n`)).toBe('main scale reading');
    expect(first(`${CALIPERS}closed: zeros coincide\nMSR: 4 mm\n`)).toBe('coinciding division');
    expect(labels(`${CALIPERS}closed: zeros coincide\nMSR: 4 mm\nn: 3\n‸`).slice(0, 5)).toEqual([
      'least count',
      'zero error',
      'zero correction',
      'observed reading',
      'corrected reading',
    ]);
  });

  it('offers what is taken over from another block only where it is missing there', () => {
    expect(labels('uses: other-part\n‸')[0]).not.toBe('main scale reading');
    expect(labels('‸')).toContain('uses');
  });

  it('offers the next choice of a question, and the key', () => {
    expect(labels(`${CALIPERS}find: least count\n‸`)[0]).toBe('option A');
    expect(labels(`${CALIPERS}find: least count\noption A: 1 mm\noption B: 2 mm\n‸`).slice(0, 2)).toEqual([
      'answer',
      'option C',
    ]);
  });

  it('takes the place of what is typed there, words with spaces too', () => {
    expect(found('main sc‸')).toMatchObject({ from: '```measurement axle\n'.length });
    expect(labels(`${CALIPERS}main ‸`, ' ')).toEqual(['main scale reading', 'main scale', '1 MSD']);
  });

  it('offers a whole block where nothing stands yet, and a new line only what cannot be left out', () => {
    expect(labels('‸').filter(label => label.endsWith('…'))).toHaveLength(13);
    expect(labels('m: 3 g\n‸').filter(label => label.endsWith('…'))).toEqual([]);
    expect(labels(`${CALIPERS}‸`, '\n')[0]).toBe('closed');
    expect(found(`${CALIPERS}MSR: 4 mm\nn: 3\n‸`, '\n')).toBeNull();
    expect(found('m: 3 g\n‸', '\n')).toBeNull();
  });
});

describe('behind a colon', () => {
  it('offers instruments, error rules, rules to waive, blocks, and how the closed instrument stands', () => {
    expect(labels('instrument:‸', ':')).toHaveLength(13);
    expect(found('instrument:‸', ':')?.offers[0]?.insert).toBe(' vernier calipers');
    expect(found('instrument: ‸', ' ')?.offers[0]?.insert).toBe('vernier calipers');
    expect(labels('error rule: ‸', ' ')).toContain('half the least count');
    expect(labels('waive: ‸', ' ')).toContain('stated-precision');
    expect(labels('uses: ‸', ' ')).toEqual(['other-part']);
    expect(labels(`${CALIPERS}closed: ‸`, ' ')).toContain('vernier zero left, division 7');
    expect(labels('instrument: screw gauge\nclosed: ‸', ' ')).toContain(
      'circular zero above the line, division 47',
    );
  });

  it('offers only forms that the language reads', () => {
    for (const scales of ['vernier calipers', 'screw gauge', 'vernier micrometer', 'sextant', 'dial gauge']) {
      for (const form of labels(`instrument: ${scales}\nclosed: ‸`))
        expect(
          checkNote(`\`\`\`measurement\ninstrument: ${scales}\nclosed: ${form}\n\`\`\`\n`).findings,
        ).toEqual([]);
      for (const scale of ['main scale', 'vernier scale', 'linear scale', 'circular scale', 'screw'])
        for (const form of labels(`instrument: ${scales}\n${scale}: ‸`))
          expect(
            checkNote(`\`\`\`measurement\ninstrument: ${scales}\n${scale}: ${form}\n\`\`\`\n`).findings,
            `${scale}: ${form}`,
          ).toEqual([]);
    }
  });
});

describe('behind an equals sign', () => {
  const read = `${CALIPERS}MSR: 24 mm\nn: 6\nobserved reading =‸`;

  it('offers the line worked out, the value, the question and names with their values', () => {
    // 24 mm and six tenths.
    expect(labels(read, '=').slice(0, 4)).toEqual([
      'MSR + n × LC = 24 mm + 6 × 0.1 mm = 24.6 mm',
      '24.6 mm',
      '?',
      'MSR',
    ]);
    expect(found(read, '=')?.offers.find(({ label }) => label === 'LC')?.detail).toBe('0.1 mm');
    expect(labels('rho: 3 g\nv: 2 cm^3\nd = rho / ‸', ' ').slice(0, 2)).toEqual(['rho', 'v']);
  });

  it('tells a student no value', () => {
    const offers = found(read, '=', { ...DEFAULT_SETTINGS, student: true })?.offers ?? [];
    expect(offers.map(({ label }) => label)).toContain('MSR');
    for (const { label, detail } of offers) expect(`${label} ${detail}`).not.toMatch(/\d/);
    const cell = `${CALIPERS}| MSR | n | OR |\n|-|-|-|\n| 4 mm | 3 | ‸`;
    expect(labels(cell, '|')).toEqual(['4.3 mm', '?']);
    expect(labels(cell, '|', { ...DEFAULT_SETTINGS, student: true })).toEqual(['?']);
  });

  it('offers rows and blocks behind of, letters of choices behind the key', () => {
    expect(labels('d = rho of ‸', ' ')).toEqual(['other-part']);
    expect(labels('e = rho of other-part\nd = MSR of ‸', ' ')).toContain('left of other-part');
    expect(labels('| label | MSR |\n|-|-|\n| near | 4 mm |\nd = MSR of ‸', ' ')[0]).toBe('near');
    expect(labels('rho: 3 g\npercentage error of ‸', ' ')).toContain('rho');
    expect(labels('find: x\noption A: 1 mm\noption B: 2 mm\nanswer =‸', '=')).toEqual(['A', 'B']);
  });
});

describe('behind a number', () => {
  it('offers the units that fit', () => {
    expect(labels(`${CALIPERS}MSR: 24 ‸`, ' ')).toEqual(['mm', 'cm', 'm', 'µm', 'in']);
    expect(labels(`${CALIPERS}MSR: 24 c‸`)).toContain('cm');
    expect(labels('main scale: 1 MSD = 10′\nMSR: 24 ‸', ' ')).toEqual(['′', '°', '″']);
    expect(found(`${CALIPERS}coinciding division: 6 ‸`, ' ')).toBeNull();
    expect(found(`${CALIPERS}MSR: 24 mm ‸`, ' ')).toBeNull();
  });

  it('takes no record for a mere number because its unit is not typed yet', () => {
    expect(labels(`${CALIPERS}zero error: 0.05 ‸`, ' ')).toEqual(['mm', 'cm', 'm', 'µm', 'in']);
    for (const record of ['pitch: 1 ‸', 'mass m: 3.0 ‸', '| t |\n|-|\n| 3.0 ‸'])
      expect(labels(record, ' ')).toEqual(expect.arrayContaining(['mm', 'g', 's', '%']));
    expect(labels('m: 3.0 g ± 0.1 ‸', ' ')).toEqual(['g', 'kg', 'mg']);
    expect(labels('m: 3.0 g ± 0.1 g\npercentage error of m = 3.3 ‸', ' ')).toEqual(['%']);
  });

  it('offers none where lines are counted, nor for a number that is claimed', () => {
    expect(found(`${CALIPERS}closed: vernier zero right, division 3 ‸`, ' ')).toBeNull();
    expect(found('m: 3.0 g\nn: 1.5 g\nx = m / n = 2.0 ‸', ' ')).toBeNull();
  });
});

describe('where nothing is offered', () => {
  it('is the prose, other fences, comments, and a space between words', () => {
    for (const marked of ['A ‸word', '```js\na: ‸\n```', '# ‸'])
      for (const trigger of [null, ' ', ':', '\n', '`']) {
        const { open, offset } = openNoteAt(`${marked}\n${OTHER}`);
        expect(offersAt(open, offset, trigger)).toBeNull();
      }
    expect(found('m: 3 g # an ‸', ' ')).toBeNull();
    expect(found('    ‸', ' ')).toBeNull();
    expect(found(`${CALIPERS}observed reading = MSR ‸`, ' ')).toBeNull();
  });
});

describe('over the wire', () => {
  const SNIPPETS = {
    ...MODERN,
    textDocument: {
      ...MODERN.textDocument,
      completion: { completionItem: { snippetSupport: true, documentationFormat: ['markdown' as const] } },
    },
  };
  const asked = (text: string, offset: number, triggerCharacter?: string) => ({
    textDocument: { uri: 'untitled:note' },
    position: positionOf(text, offset),
    context: { triggerKind: triggerCharacter === undefined ? 1 : 2, triggerCharacter },
  });

  it('comes with snippets and what each word means', async () => {
    const client = await lspClient(SNIPPETS);
    expect(client.initialized.capabilities.completionProvider?.triggerCharacters).toContain(':');
    const text = '```measurement\n\n```\n';
    client.open('untitled:note', text);
    const { items } = await client.request<CompletionList>(
      'textDocument/completion',
      asked(text, text.indexOf('\n') + 1, '\n'),
    );
    const [instrument] = items;
    expect(instrument).toMatchObject({ label: 'instrument', insertTextFormat: 2 });
    expect(instrument?.textEdit?.newText).toMatch(/^instrument: \$\{1\|vernier calipers,/);
    const explained = await client.request<CompletionItem>('completionItem/resolve', instrument);
    expect((explained.documentation as MarkupContent).value).toMatch(/^\*\*instrument\*\*/);
    const bare = { label: 'mm' };
    expect(await client.request('completionItem/resolve', bare)).toEqual(bare);
    expect(await client.request('completionItem/resolve', { ...bare, data: 'x' })).toMatchObject(bare);
  });

  it('writes plain text for an editor without snippets, and the note stays right', async () => {
    const client = await lspClient();
    const text = '# Bench\n\n> ```';
    client.open('untitled:note', text);
    const { items } = await client.request<CompletionList>(
      'textDocument/completion',
      asked(text, text.length, '`'),
    );
    const item = items.find(({ label }) => label === 'measurement sextant');
    expect(item?.insertTextFormat).toBeUndefined();
    const edit = item?.textEdit as TextEdit;
    const note = editedText(text, [edit]);
    expect(note).toMatch(/^> ```measurement name\n> instrument: sextant\n[\s\S]*\n> ```$/m);
    expect(checkNote(note)).toMatchObject({ findings: [], blocks: [{ name: 'name' }] });
  });

  it('fills the places of a snippet with what stands in them', () => {
    const snippet = ['a $', '{1:b\\}} $', '{2|c\\, d,e|} $0f\\$'].join('');
    expect(withoutPlaces(snippet)).toBe('a b} c, d f$');
  });
});
