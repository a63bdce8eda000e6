import fc from 'fast-check';
import { expect, test } from 'vitest';
import { checkNote } from '../../server/src/checks/check.ts';
import type { CheckedNote } from '../../server/src/checks/finding.ts';
import { noteSession } from '../../server/src/checks/note-session.ts';
import { projectFiles, projectText } from '../support/project-files.ts';
import { drawSeed } from '../support/seed.ts';

// Source of what is right: the same check without any memory.

drawSeed('note-session');

const notes = projectFiles()
  .filter(path => /^(?:examples|tests\/(?:rules|slips|published|natural-typing))\/.*\.md$/.test(path))
  .map(projectText);

const TYPED = [
  '7',
  '-',
  '\n',
  '= ?\n',
  '#',
  '`',
  '```\n',
  '```measurement cone-spindle\n',
  '```measurement q1\n',
  '~~~\n',
  '<!--',
  '> ',
  '  ',
  'corrected reading of cone-spindle',
  '`corrected reading of cone-spindle = 1.23 cm`',
  'uses: cone-spindle\n',
  'main scale: 1 cm = 10 MSD\n',
  'waive: wrong-value, as printed\n',
  '\r\n',
];

interface Typing {
  readonly at: number;
  readonly gone: number;
  readonly typed: string;
}

const typing: fc.Arbitrary<Typing> = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  gone: fc.oneof(fc.constant(0), fc.constant(0), fc.integer({ min: 1, max: 400 })),
  typed: fc.constantFrom('', ...TYPED),
});

function typedInto(text: string, { at, gone, typed }: Typing): string {
  const from = Math.floor(at * (text.length + 1));
  return text.slice(0, from) + typed + text.slice(from + gone);
}

/** As plain data, so that what is worked out late is worked out. */
const plain = ({ blocks, findings }: CheckedNote): unknown =>
  JSON.parse(JSON.stringify({ blocks, findings }));

test('after every edit the session says what a fresh check says', () => {
  let found = 0;
  fc.assert(
    fc.property(
      fc.array(fc.constantFrom(...notes), { minLength: 1, maxLength: 3 }),
      fc.array(typing, { minLength: 1, maxLength: 6 }),
      (parts, edits) => {
        const session = noteSession();
        let text = parts.join('\n\n');
        expect(plain(session.check(text))).toEqual(plain(checkNote(text)));
        for (const edit of edits) {
          text = typedInto(text, edit);
          const now = session.check(text);
          expect(plain(now)).toEqual(plain(checkNote(text)));
          found += now.findings.length;
        }
      },
    ),
    { numRuns: 15 },
  );
  expect(found).toBeGreaterThan(20);
});
