import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkNote } from '../../server/src/checks/check.ts';
import { expectFixesMend, fixAll } from '../support/fixes.ts';

const root = new URL('../../', import.meta.url);
const read = (path: string): string => readFileSync(new URL(path, root), 'utf8');
const notes = ['tests/rules/', 'examples/careless/', 'tests/natural-typing/'].flatMap(folder =>
  readdirSync(new URL(folder, root))
    .filter(name => name.endsWith('.md') && name !== 'README.md')
    .sort()
    .map(name => `${folder}${name}`),
);

describe('the fixes', () => {
  it.each(notes)('in %s mend their finding and add none', path => {
    expectFixesMend(read(path), checkNote);
  });

  it.each(notes)('in %s, made all together and again, come to an end', path => {
    const mended = fixAll(read(path), checkNote);
    const left = checkNote(mended).findings.filter(({ waived, fixes }) => waived === null && fixes[0]?.sure);
    expect(left).toEqual([]);
  });
});
