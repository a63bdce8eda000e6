import { closeSync, openSync, readSync, rmSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { partName } from '../part-name.ts';

/** A text that is put by until it is wanted: a little of it in memory, more in a file for the time being. */
export interface KeptText {
  /** Throws what the system says where there is no room for the file. */
  readonly keep: (text: string) => void;
  /** Gives all of it back piece by piece, once. */
  readonly pour: () => Generator<string>;
  /** Lets go of the file, whatever became of the text. */
  readonly drop: () => void;
}

/** So many UTF-16 units stay in memory. */
const IN_MEMORY = 262_144;
const PIECE = 65_536;

export function keptText(): KeptText {
  let inMemory: string[] = [];
  let size = 0;
  let file: { readonly open: number; readonly path: string } | null = null;

  const spill = () => {
    if (file === null) {
      const path = join(tmpdir(), partName());
      file = { open: openSync(path, 'wx+', 0o600), path };
      // A file without a name goes when the process goes, however that ends.
      if (process.platform !== 'win32') rmSync(path, { force: true });
    }
    const bytes = Buffer.from(inMemory.join(''));
    for (let written = 0; written < bytes.length; ) written += writeSync(file.open, bytes, written);
    inMemory = [];
    size = 0;
  };
  return {
    keep: text => {
      inMemory.push(text);
      size += text.length;
      if (size > IN_MEMORY) spill();
    },
    *pour() {
      if (file !== null) {
        const bytes = Buffer.alloc(PIECE);
        const decoder = new TextDecoder();
        let at = 0;
        for (let read = readSync(file.open, bytes, 0, PIECE, at); read > 0; ) {
          yield decoder.decode(bytes.subarray(0, read), { stream: true });
          at += read;
          read = readSync(file.open, bytes, 0, PIECE, at);
        }
      }
      yield inMemory.join('');
      inMemory = [];
    },
    drop: () => {
      if (file === null) return;
      closeSync(file.open);
      rmSync(file.path, { force: true });
      file = null;
    },
  };
}
