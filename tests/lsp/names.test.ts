import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { withEdits } from '../../server/src/actions/settled-edits.ts';
import { checkNote } from '../../server/src/checks/check.ts';
import { isSymbol } from '../../server/src/language/names.ts';
import { definitionAt } from '../../server/src/lsp/features/definition.ts';
import { highlightsAt } from '../../server/src/lsp/features/document-highlight.ts';
import { referencesAt } from '../../server/src/lsp/features/references.ts';
import { renamingAt } from '../../server/src/lsp/features/rename.ts';
import { namedPlaces } from '../../server/src/lsp/named-places.ts';
import type { NamedPlace } from '../../server/src/lsp/naming.ts';
import type { OpenNote } from '../../server/src/lsp/open-notes.ts';
import { openNote, openNoteAt } from '../support/open-note.ts';
import { wholeNote } from '../support/whole-note.ts';

const NOTE = `\`\`\`measurement dish
instrument: spherometer
pitch: 1 mm
circular scale: 100 divisions
| label | LSR  | CSR | observed reading |
|-------|------|-----|------------------|
| plate | 0 mm | 14  | 0.14 mm          |
| dish  | 2 mm | 63  | 2.63 mm          |
sagitta h = observed reading of dish - observed reading of plate = 2.49 mm
leg distance l: 46.0 mm
radius of curvature R = l^2/(6h) + h/2 = 142.9 mm
\`\`\`

\`\`\`measurement power
focal length f = R of dish / 2 = 71.5 mm
m: 5 m
\`\`\`

It bulges by \`observed reading of dish of dish = 2.63 mm\`.
`;

/** What stands at each place of the thing at the cursor, with its line from 1; \`!\` where the name is given. */
function told(open: OpenNote, key: string): readonly string[] {
  return namedPlaces(wholeNote(open.text))
    .filter(place => place.key === key)
    .map(({ span, isDeclaration }) => {
      const line = open.text.slice(0, span.start).split('\n').length;
      return `${line} ${open.text.slice(span.start, span.end)}${isDeclaration ? '!' : ''}`;
    });
}

/** The note with a cursor before a piece of text that follows another. */
function at(before: string, text = NOTE): { readonly open: OpenNote; readonly offset: number } {
  return openNoteAt(text.replace(before, () => `${before}‸`));
}

describe('the names of a note', () => {
  it('are found where they are given and where they are used', () => {
    const open = openNote(NOTE);
    expect(told(open, 'block 0')).toEqual(['1 dish!', '15 dish', '19 dish']);
    expect(told(open, 'label 0:1')).toEqual(['7 plate!', '9 plate']);
    expect(told(open, 'label 0:2')).toEqual(['8 dish!', '9 dish', '19 dish']);
    expect(told(open, 'quantity 0:h')).toEqual(['9 sagitta!', '9 h!', '11 h', '11 h']);
    expect(told(open, 'quantity 0:l')).toEqual(['10 leg distance!', '10 l!', '11 l']);
    expect(told(open, 'quantity 0:R')).toEqual(['11 radius of curvature!', '11 R!', '15 R']);
    expect(told(open, 'quantity 1:f')).toEqual(['15 focal length!', '15 f!']);
  });

  it('are those of its block in a claim of the prose', () => {
    const open = openNote(`${NOTE}\nIt is \`R of dish = l^2/(6 h) + h/2 = 142.9 mm\`.\n`);
    expect(told(open, 'quantity 0:l').at(-1)).toBe('21 l');
    expect(told(open, 'quantity 0:h').slice(-2)).toEqual(['21 h', '21 h']);
    expect(told(open, 'quantity 0:R').at(-1)).toBe('21 R');
  });

  it('are not mistaken for units', () => {
    expect(told(openNote(NOTE), 'quantity 1:m')).toEqual(['16 m!']);
  });

  it('lead from where they are used to where they are given', () => {
    const { open, offset } = at('focal length f = ');
    expect(definitionAt(open, offset)?.range.start).toEqual({ line: 10, character: 0 });
    const row = at('= observed reading of ');
    expect(definitionAt(row.open, row.offset)?.range.start).toEqual({ line: 7, character: 2 });
    const nothing = at('instrument: ');
    expect(definitionAt(nothing.open, nothing.offset)).toBeNull();
  });

  it('are listed and marked', () => {
    const { open, offset } = at('46.0 mm\nradius of curvature R = ');
    expect(referencesAt(open, offset, true)).toHaveLength(3);
    expect(referencesAt(open, offset, false)).toHaveLength(1);
    expect(highlightsAt(open, offset).map(({ kind }) => kind)).toEqual([3, 3, 2]);
  });
});

describe('renaming', () => {
  const renamed = (before: string, newName: string): string => {
    const { open, offset } = at(before);
    const edits = renamingAt(open, offset, newName);
    if (edits === null || typeof edits === 'string') throw new Error(edits ?? 'no name');
    return withEdits(open.text, edits);
  };

  it('changes every place of the thing and no other', () => {
    const block = renamed('measurement ', 'watch-glass');
    expect(block).toContain('```measurement watch-glass');
    expect(block).toContain('R of watch-glass / 2');
    expect(block).toContain('observed reading of dish of watch-glass =');
    const label = renamed(
      '|\n| dish  | 2 mm | 63  | 2.63 mm          |\nsagitta h = observed reading of '.slice(2),
      'bowl',
    );
    expect(label).toContain('| bowl  | 2 mm');
    expect(label).toContain('observed reading of bowl of dish =');
    expect(renamed('sagitta ', 's')).toContain('sagitta s = observed');
    expect(renamed('sagitta ', 's')).toContain('l^2/(6s) + s/2');
  });

  it('is refused where the name is no name, is taken, or would change what is said', () => {
    const refused = (before: string, newName: string) => {
      const { open, offset } = at(before);
      return renamingAt(open, offset, newName);
    };
    expect(refused('measurement ', 'a block')).toMatch(/letters, digits and hyphens/);
    expect(refused('measurement ', 'power')).toMatch(/something else/);
    expect(refused('--------------|\n| ', 'a|b')).toMatch(/label/);
    expect(refused('sagitta ', 'MSR')).toMatch(/main scale reading/);
    expect(refused('sagitta ', 'height')).toMatch(/symbol/);
    expect(refused('sagitta ', 'l')).toMatch(/something else/);
    expect(refused('instrument', 'x')).toBeNull();
  });

  const called = (marked: string, newName: string): string | null => {
    const { open, offset } = openNoteAt(`\`\`\`measurement\n${marked}\n\`\`\`\n`);
    const edits = renamingAt(open, offset, newName);
    return edits === null || typeof edits === 'string' ? edits : withEdits(open.text, edits);
  };

  it('takes a symbol as people type one, and a name with an apostrophe', () => {
    expect(called('‸d: 2.0 cm\nx = 2 d = 4.0 cm', 'θ')).toContain('θ: 2.0 cm\nx = 2 θ =');
    expect(called('‸d: 2.0 cm\nx = 2 d = 4.0 cm', 'D₁')).toContain('D₁: 2.0 cm\nx = 2 D₁ =');
    expect(called('‸d: 2.0 cm\nx = 2 d = 4.0 cm', 'π')).toMatch(/^a symbol is/);
    expect(called('‸bulk modulus: 2 Pa\nx = 2 × bulk modulus = 4 Pa', "young's modulus")).toContain(
      "young's modulus: 2 Pa\nx = 2 × young's modulus =",
    );
  });

  it('takes a letter of a scale where it is a symbol there, and in no other block', () => {
    const volume = 'd: 2.0 cm\nvolume ‸v = pi d^3 / 6 = 4.19 cm^3\nm: 8.0 g\nrho = m / v = 1.9 g/cm^3';
    expect(called(volume, 'V')).toContain('volume V = pi d^3 / 6 = 4.19 cm^3\nm: 8.0 g\nrho = m / V =');
    const length = '‸d: 2.0 cm\nx = 2 d = 4.0 cm';
    expect(called(length, 'V')).toBe('V already stands for the vernier scale division');
    expect(called(`vernier scale: 10 VSD = 9 MSD\n${length}`, 'S')).toMatch(/^S already stands/);
  });

  const root = new URL('../../examples/', import.meta.url);
  const notes = ['', 'careless/'].flatMap(folder =>
    readdirSync(new URL(folder || '.', root))
      .filter(name => name.endsWith('.md'))
      .map(name => folder + name),
  );

  const unheardOf = ({ kind, spelling }: NamedPlace): string =>
    kind !== 'quantity' ? 'unheard-of' : isSymbol(spelling) ? 'zeta77' : 'unheard thing';

  it.each(notes)('leaves nothing behind in %s', name => {
    const open = openNote(readFileSync(new URL(name, root), 'utf8'));
    const known = new Set<string>();
    for (const place of namedPlaces(wholeNote(open.text))) {
      const thing = `${place.key} ${place.spelling.toLowerCase()}`;
      if (!place.isDeclaration || known.has(thing)) continue;
      known.add(thing);
      const edits = renamingAt(open, place.span.start, unheardOf(place));
      // A mistyped term is a name only by mistake, and an ambiguous line names what it may name.
      if (name.startsWith('careless/') && typeof edits === 'string') continue;
      if (edits === null || typeof edits === 'string') throw new Error(`${thing}: ${edits}`);
      expect(checkNote(withEdits(open.text, edits)).findings).toHaveLength(open.checked.findings.length);
    }
  });
});
