import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type Range, TextDocument } from 'vscode-languageserver-textdocument';
import { readNote } from '../../server/src/language/fences.ts';
import { noteReader } from '../../server/src/language/note-reader.ts';
import { noteDocument } from '../../server/src/lsp/note-document.ts';
import { drawSeed } from '../support/seed.ts';
import { spelledOut } from '../support/spelled-out.ts';
import { RIGHT_NOTE, WRONG_NOTE } from '../support/workshop-notes.ts';

// Source of what is right: the protocol's own TextDocument, and the same note read as a whole.

drawSeed('note-document');

const typed = fc.constantFrom(
  ...['', '', '7', '\n', '\r', '\r\n', '```\n', '```measurement x\n', '<!--', '---\n', '\uFEFF', '🚲'],
  'Close the jaws.\r\n\r\n'.repeat(1500),
);
const length = fc.constantFrom(0, 0, 0, 1, 2, 30, 20_000);
/** Where in the note, how much goes, what comes, and whether an editor would send the whole text instead. */
const edit = fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), length, typed, fc.boolean());

it('says of every text what a document of the protocol says, and knows its own changes', () => {
  let moves = 0;
  fc.assert(
    fc.property(
      fc.constantFrom('', RIGHT_NOTE, `${'Read the zero.\n\n'.repeat(1200)}${WRONG_NOTE}\r\n${RIGHT_NOTE}`),
      fc.array(fc.array(edit, { minLength: 1, maxLength: 3 }), { maxLength: 6 }),
      (text, rounds) => {
        const expected = TextDocument.create('untitled:note', 'markdown', 1, text);
        const document = noteDocument('untitled:note', 'markdown', 1, text);
        const read = noteReader();
        read(document.note);
        for (const [round, edits] of rounds.entries()) {
          for (const [part, gone, by, isWhole] of edits) {
            const now = expected.getText();
            const start = Math.floor(part * now.length);
            const range: Range = {
              start: expected.positionAt(start),
              end: expected.positionAt(start + gone),
            };
            const change = isWhole && gone === 1 ? { text: by + now } : { range, text: by };
            TextDocument.update(expected, [change], round + 2);
            document.change([change], round + 2);
            moves += 1;
          }
          expect(document.getText()).toBe(expected.getText());
          expect([document.version, document.lineCount]).toEqual([expected.version, expected.lineCount]);
          for (let at = -1; at <= expected.getText().length + 1; at += 1 + (expected.getText().length >> 5)) {
            const position = expected.positionAt(at);
            expect(document.positionAt(at)).toEqual(position);
            const beyond = { line: position.line, character: position.character + 9 };
            expect(document.offsetAt(beyond)).toBe(expected.offsetAt(beyond));
            expect(document.getLineRange(position.line)).toEqual(expected.getLineRange(position.line));
            expect(document.getEOLCharacters(position.line)).toBe(expected.getEOLCharacters(position.line));
          }
          expect(spelledOut(read(document.note))).toEqual(readNote(expected.getText()));
        }
      },
    ),
    { numRuns: 25 },
  );
  expect(moves).toBeGreaterThan(25);
});

it('takes a place outside of the note for the nearest end', () => {
  const document = noteDocument('untitled:note', 'markdown', 1, 'pitch\r\n1 mm');
  expect(document.offsetAt({ line: -1, character: 4 })).toBe(0);
  expect(document.offsetAt({ line: 5, character: 0 })).toBe(11);
  expect(document.getText({ start: { line: 0, character: 2 }, end: { line: 1, character: 1 } })).toBe(
    'tch\r\n1',
  );
});
