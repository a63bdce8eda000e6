import { readdirSync, readFileSync } from 'node:fs';
import { describe, it } from 'vitest';
import { checkNote } from '../../server/src/checks/check.ts';
import { expectMarkedNote } from '../support/marked-note.ts';

// Facts and figures from published sources, each named in the prose beside its block. What states no figure that can
// be checked is listed with the reason in left-out.json.
const folder = new URL('.', import.meta.url);

describe('published figures', () => {
  it.each(readdirSync(folder).filter(name => name.endsWith('.md')))('%s', name => {
    expectMarkedNote(readFileSync(new URL(name, folder), 'utf8'), checkNote);
  });
});
