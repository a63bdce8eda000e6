import { createHash } from 'node:crypto';
import { closeSync, openSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { compare, programMemory } from './measure.mjs';

const launcher = join(import.meta.dirname, '../../server/bin/leastwise.js');

/** Putting shares together must need no more memory for a large bank than for a small one. */
export const mergingRows = [
  {
    name: 'peak memory: leastwise merge, reports of 50 times as many notes ÷ reports of few',
    must: 1.2,
    aim: 1,
    measure: async ({ folder, notes, runs }) => {
      const shares = count => [1, 2].map(index => share(join(folder, '..'), index, count));
      const few = shares(notes.length >> 3);
      const many = shares(notes.length * 6);
      return compare(
        () => programMemory([launcher, 'merge', ...many], [0]),
        () => programMemory([launcher, 'merge', ...few], [0]),
        Math.min(runs, 3),
      );
    },
  },
];

/** Writes the JSON document of one of two shares with `count` notes of about 6 kB, and gives its path. */
function share(folder, index, count) {
  const path = join(folder, `share-${index}-of-${count}.json`);
  const file = openSync(path, 'w');
  const digest = createHash('sha256');
  const write = text => {
    digest.update(text);
    writeSync(file, text);
  };
  write('{"version":1,"notes":[');
  for (let at = 0; at < count; at++) {
    const note = { path: `notes/${index}-${at}.md`, blocks: [{ name: 'x'.repeat(6000) }], findings: [] };
    write(`${at === 0 ? '\n' : ',\n'}${JSON.stringify(note)}`);
  }
  const summary = { notes: count, blocks: count, claims: 0, errors: 0, warnings: 0 };
  const facts = { index, of: 2, bank: 'b'.repeat(64), places: count, without: [], troubles: [] };
  write(`\n],"summary":${JSON.stringify(summary)},"share":${JSON.stringify(facts).slice(0, -1)}`);
  writeSync(file, `,"seal":"${digest.digest('hex')}"}}\n`);
  closeSync(file);
  return path;
}
