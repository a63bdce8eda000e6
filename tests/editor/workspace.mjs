import { cpSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export const PROJECT = join(import.meta.dirname, '../..');

/** A folder of this run alone: `notes`, a copy of the examples, and room for what the editor keeps. */
export function makeWorkspace() {
  const folder = mkdtempSync(join(tmpdir(), 'leastwise-editor-'));
  const notes = join(folder, 'notes');
  mkdirSync(notes);
  cpSync(join(PROJECT, 'examples'), notes, {
    recursive: true,
    filter: path => !/\.mjs$/.test(path),
  });
  return {
    notes,
    data: join(folder, 'editor'),
    extensions: join(folder, 'extensions'),
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}
