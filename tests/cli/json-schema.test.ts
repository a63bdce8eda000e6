import { describe, expect, it } from 'vitest';
import { folderOf, leastwise } from '../support/command.ts';
import { validationBy } from '../support/json-schema.ts';
import { PROJECT_ROOT } from '../support/project-files.ts';
import { WRONG_NOTE } from '../support/workshop-notes.ts';

const problemsOf = validationBy('server/schema/leastwise.report.schema.json', true);
const FOLDERS = ['examples', 'tests/natural-typing', 'tests/rules', 'tests/slips', 'server/reference'];

function documentOf(...words: readonly string[]) {
  const run = leastwise(['check', ...words, '--format', 'json'], { cwd: PROJECT_ROOT });
  expect(run.stderr).toBe('');
  return JSON.parse(run.stdout);
}

describe('the schema of the document for programs', () => {
  it.each(FOLDERS)('holds for the notes in %s', folder => {
    const document = documentOf(folder);
    expect(problemsOf(document)).toEqual([]);
    expect(document.notes.length).toBeGreaterThan(5);
  });

  it('holds where waived findings are listed', () => {
    const document = documentOf('tests', '--waived');
    expect(problemsOf(document)).toEqual([]);
    expect(document.summary.waived).toBeGreaterThan(0);
  });

  it('holds for a share of a bank, and where a baseline holds findings back', () => {
    const share = documentOf('tests/slips', '--shard', '1/2');
    expect(share.share).toMatchObject({ index: 1, of: 2 });
    expect(problemsOf(share)).toEqual([]);
    const cwd = folderOf({ 'a.md': WRONG_NOTE });
    leastwise(['check', '.', '--baseline', 'old.json', '--record-baseline'], { cwd });
    const run = leastwise(['check', '.', '--baseline', 'old.json', '--format', 'json'], { cwd });
    const document = JSON.parse(run.stdout);
    expect(document.summary).toMatchObject({ errors: 0, old: 1 });
    expect(problemsOf(document)).toEqual([]);
  });

  it('holds for a bank without notes', () => {
    expect(problemsOf(JSON.parse(leastwise(['check', 'gone.md', '--format', 'json']).stdout))).toEqual([]);
  });

  it('knows every field: one more, or one less, is refused', () => {
    const document = documentOf('tests/slips/zero-correction-sign.md');
    const places = objectsIn(document);
    expect(places.length).toBeGreaterThan(6);
    for (const object of places) {
      object.further = 1;
      expect(problemsOf(document)).not.toEqual([]);
      delete object.further;
      for (const [key, value] of Object.entries(object)) {
        delete object[key];
        expect(problemsOf(document), key).not.toEqual([]);
        object[key] = value;
      }
    }
    expect(problemsOf(document)).toEqual([]);
  });
});

/** Every object of a document, the document itself first. */
function objectsIn(value: unknown): Record<string, unknown>[] {
  if (typeof value !== 'object' || value === null) return [];
  const inner = Object.values(value).flatMap(objectsIn);
  return Array.isArray(value) ? inner : [value as Record<string, unknown>, ...inner];
}
