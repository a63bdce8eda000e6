import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readNote } from '../../server/src/language/fences.ts';
import { noteReader } from '../../server/src/language/note-reader.ts';
import { drawSeed } from '../support/seed.ts';
import { spelledOut } from '../support/spelled-out.ts';
import { edited, noteEdit, pitfallNote } from './pitfall-notes.ts';

// Source of what is right: the same note read as a whole, which fences-differential.test.ts compares with remark-parse.

drawSeed('note-reader');

test('after every edit the reader finds what reading the whole note finds', () => {
  let blocks = 0;
  fc.assert(
    fc.property(
      fc.array(pitfallNote, { minLength: 1, maxLength: 4 }),
      fc.array(noteEdit, { minLength: 1, maxLength: 12 }),
      (notes, edits) => {
        const read = noteReader();
        let text = notes.join('\n\n');
        expect(spelledOut(read(text))).toEqual(readNote(text));
        for (const edit of edits) {
          text = edited(text, edit);
          const structure = read(text);
          expect(spelledOut(structure)).toEqual(readNote(text));
          blocks += structure.fences.length;
        }
      },
    ),
    { numRuns: 150 },
  );
  expect(blocks).toBeGreaterThan(150);
});

test('what a comment or a fence swallows for a while is found again, also where it was edited meanwhile', () => {
  let blocks = 0;
  fc.assert(
    fc.property(
      fc.array(pitfallNote, { minLength: 10, maxLength: 20 }),
      fc.constantFrom('<!--\n', '```\n', '~~~~~~~\n', '> <!--\n', '---\n'),
      fc.array(noteEdit, { maxLength: 3 }),
      (notes, opening, edits) => {
        const read = noteReader();
        // Plain paragraphs, as most of a long note is, are passed over together.
        const prose = 'Close the jaws, and read the zero.\n\n'.repeat(60);
        const note = `${prose}${notes.join(`\n\n${prose}`)}\n`;
        expect(spelledOut(read(note))).toEqual(readNote(note));
        let text = opening + note;
        expect(spelledOut(read(text))).toEqual(readNote(text));
        for (const edit of edits) {
          text = edited(text, edit);
          expect(spelledOut(read(text))).toEqual(readNote(text));
        }
        if (text.startsWith(opening)) text = text.slice(opening.length);
        const structure = read(text);
        expect(spelledOut(structure)).toEqual(readNote(text));
        blocks += structure.fences.length;
      },
    ),
    { numRuns: 25 },
  );
  expect(blocks).toBeGreaterThan(25);
});

test('another note in its place is read anew', () => {
  const read = noteReader();
  const first = '# A\n\n```measurement a\npitch: 1 mm\n```\n';
  expect(spelledOut(read(first))).toEqual(readNote(first));
  const second = '---\ntitle: B\n---\n\n> ```measurement b\n> pitch: 2 mm\n> ```\n';
  expect(spelledOut(read(second))).toEqual(readNote(second));
  expect(spelledOut(read('nothing'))).toEqual(readNote('nothing'));
  expect(spelledOut(read(first))).toEqual(readNote(first));
});
