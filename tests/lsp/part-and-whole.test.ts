import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { withEdits } from '../../server/src/actions/settled-edits.ts';
import { checkNote } from '../../server/src/checks/check.ts';
import { examineNote } from '../../server/src/checks/examine.ts';
import { isHere } from '../../server/src/checks/record-lacks.ts';
import { isSymbol } from '../../server/src/language/names.ts';
import { documentSymbolsOf } from '../../server/src/lsp/features/document-symbol.ts';
import { renamingAt } from '../../server/src/lsp/features/rename.ts';
import { namedAt } from '../../server/src/lsp/named-at.ts';
import { namedPlaces } from '../../server/src/lsp/named-places.ts';
import type { NamedPlace } from '../../server/src/lsp/naming.ts';
import type { OpenNote } from '../../server/src/lsp/open-notes.ts';
import { openNote } from '../support/open-note.ts';
import { wholeNote } from '../support/whole-note.ts';

const NOTES = ['examples/', 'examples/careless/', 'tests/natural-typing/'].flatMap(folder =>
  readdirSync(folder)
    .filter(name => name.endsWith('.md'))
    .map(name => [folder + name, readFileSync(folder + name, 'utf8')] as const),
);

/** Two blocks that a new name joins, a claim in the prose and a working that name one of them, and a block apart. */
const CONNECTED = `\`\`\`measurement gauge
pitch: 1 mm
circular scale: 100 divisions
\`\`\`

<!-- working: gauge 3f2a9c -->
<!-- end working -->

\`\`\`measurement ball
uses: gauge
LSR: 2 mm
CSR: 40
D = observed reading = 2.40 mm
\`\`\`

It has \`observed reading of ball = 2.40 mm\`, and \`observed reading of drum = 1 mm\` is another thing.

\`\`\`measurement other
D: 4 m
k = 2 D = 8 m
\`\`\`
`;

const ALL_TEXTS = [
  ...NOTES,
  ['blocks that are connected', CONNECTED],
  ['all of them in one note', [...NOTES.map(([, text]) => text), CONNECTED].join('\n\n')],
] as const;

/** Without what tells one thing from another by where its block stands in what was looked at. */
function placesOf(places: readonly NamedPlace[]): readonly Omit<NamedPlace, 'key'>[] {
  return places.map(({ key: _, ...place }) => place);
}

/** The places of a name by what the whole note says. */
function fromWhole(all: readonly NamedPlace[], offset: number): readonly Omit<NamedPlace, 'key'>[] {
  const at = all.find(({ span }) => span.start <= offset && offset <= span.end);
  return at === undefined ? [] : placesOf(all.filter(({ key }) => key === at.key));
}

describe('what the blocks around a place say of its name', () => {
  it.each(ALL_TEXTS)('is what the whole note says: %s', (_, text) => {
    const open = openNote(text);
    const all = namedPlaces(wholeNote(text));
    const step = Math.ceil(text.length / 100);
    const offsets = new Set(all.flatMap(({ span }) => [span.start, span.end]));
    for (let offset = 0; offset <= text.length; offset += step) offsets.add(offset);
    for (const offset of offsets)
      expect(placesOf(namedAt(open, offset)?.all ?? []), `at ${offset}`).toEqual(fromWhole(all, offset));
  });
});

/** Whether a check of the whole note finds the same fault with it under another name. */
function wholeSaysTheSame({ text, checked }: OpenNote, edits: Parameters<typeof withEdits>[1]): boolean {
  const outcome = (findings: OpenNote['checked']['findings']): readonly string[] =>
    findings.filter(({ rule }) => rule !== 'stale-working').map(({ rule, slip }) => `${rule} ${slip}`);
  return outcome(checked.findings).join() === outcome(checkNote(withEdits(text, edits)).findings).join();
}

describe('renaming', () => {
  const names = ({ kind, spelling }: NamedPlace): readonly string[] => {
    if (kind !== 'quantity') return ['drum', 'ball'];
    return isSymbol(spelling) ? ['D', 'k'] : ['mass'];
  };

  it.each(ALL_TEXTS.slice(0, -1))(
    'is refused where the whole note would say something else: %s',
    (_, text) => {
      const open = openNote(text);
      const all = namedPlaces(wholeNote(text));
      const declared = all.filter(
        (place, at) => place.isDeclaration && all.findIndex(({ key }) => key === place.key) === at,
      );
      for (const place of declared)
        for (const name of names(place)) {
          const edits = renamingAt(open, place.span.start, name);
          if (edits === null) throw new Error(`${place.spelling} has no name`);
          const isRefused = typeof edits === 'string';
          const wanted = all
            .filter(({ key, spelling }) => key === place.key && isWritten(spelling, place))
            .map(({ span }) => ({ span, newText: name }));
          if (!isRefused) expect(edits).toEqual(wanted);
          expect(isRefused, `${place.spelling} → ${name}`).toBe(!wholeSaysTheSame(open, wanted));
        }
    },
  );

  const isWritten = (spelling: string, { kind, spelling: own }: NamedPlace): boolean =>
    kind === 'quantity' && isSymbol(own)
      ? spelling === own
      : spelling.toLowerCase().replace(/[\s_-]+/g, '-') === own.toLowerCase().replace(/[\s_-]+/g, '-');
});

describe('the outline', () => {
  it.each(ALL_TEXTS)('is that of the whole note: %s', (_, text) => {
    const open = openNote(text);
    const note = examineNote(text);
    const wanted = (note?.measurements.slice(0, note.fences) ?? []).map(measurement => {
      const { name, instrument, fence, claims, own, rows, question } = measurement;
      const spans = [
        ...claims.filter(({ inTable, mended, subjectText }) => !inTable && !mended && subjectText.trim()),
        ...[...own.values()].map(record => (record.kind === 'value' ? record.given : record)),
        ...rows.filter(({ label }) => label !== null),
        ...question.options,
      ].map(({ span }) => span);
      return {
        name: name ?? 'measurement',
        detail: instrument ?? undefined,
        starts: open.document.positionAt(fence.span.start),
        children: spans
          .filter(span => isHere(measurement, span))
          .sort((a, b) => a.start - b.start)
          .map(({ start }) => open.document.positionAt(start)),
      };
    });
    const told = documentSymbolsOf(open).map(({ name, detail, range, children = [] }) => ({
      name,
      detail,
      starts: range.start,
      children: children.map(child => child.range.start),
    }));
    expect(told).toEqual(wanted);
  });
});
