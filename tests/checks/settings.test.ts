import { readFileSync } from 'node:fs';
import { describe, it } from 'vitest';
import { checkNote } from '../../server/src/checks/check.ts';
import { expectMarkedNote } from '../support/marked-note.ts';

describe('settings of several instruments', () => {
  it('are right as they stand', () => {
    expectMarkedNote(readFileSync(new URL('settings.md', import.meta.url), 'utf8'), checkNote);
  });
});
