import { spawn, spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fixAllEdits } from '../../../server/src/actions/fix-all.ts';
import { withEdits } from '../../../server/src/actions/settled-edits.ts';
import { isNoteName } from '../../../server/src/cli/walk.ts';
import { folderOf, LAUNCHER, leastwise } from '../../support/command.ts';
import { drawSeed } from '../../support/seed.ts';
import { PLAIN_NOTE, RIGHT_NOTE, WRONG_NOTE } from '../../support/workshop-notes.ts';

const seed = drawSeed('kill');

/** Long enough that its writing takes a while, and that a half of it is no other note of the folder. */
const long = (note: string, at: number): string =>
  `# Sheet ${at}\n\n${note}\n${'The sleeve was cleaned before it was measured.\n'.repeat(50 * (at % 40))}`;
const NOTES = 150;
const old = Array.from({ length: NOTES }, (_, at) => long(at % 8 === 7 ? PLAIN_NOTE : WRONG_NOTE, at));
const mended = old.map(text => withEdits(text, fixAllEdits(text)));
const nameOf = (at: number): string => `set-${at % 3}/q${String(at).padStart(3, '0')}.md`;

/** After how many mended notes a run is killed, and how long after that, in turns of looking at the disk. */
const moments = fc.sample(fc.tuple(fc.integer({ min: 0, max: 120 }), fc.nat(40)), { numRuns: 5, seed });

/** Starts a run and kills it; gives whether it was still at work. */
async function killedRun(
  folder: string,
  [after, turns]: readonly [number, number],
  jobs: string,
): Promise<boolean> {
  const run = spawn(process.execPath, [LAUNCHER, 'check', '--fix', '.', '--jobs', jobs], {
    cwd: folder,
    stdio: 'ignore',
  });
  const ended = new Promise<NodeJS.Signals | null>(resolve => {
    run.on('exit', (_, signal) => resolve(signal));
  });
  let isOver = false;
  void ended.then(() => {
    isOver = true;
  });
  // The notes of a run are mended folder by folder.
  const order = old
    .map((_, at) => at)
    .sort((a, b) => (nameOf(a) < nameOf(b) ? -1 : 1))
    .filter(at => mended[at] !== old[at]);
  const watched = join(folder, nameOf(order[Math.min(after, order.length - 1)]!));
  const before = statSync(watched).ino;
  let left = turns;
  while (!isOver && left > 0) {
    if (statSync(watched).ino !== before) left--;
    await new Promise(resolve => setImmediate(resolve));
  }
  run.kill('SIGKILL');
  return (await ended) === 'SIGKILL';
}

/** Every note as it was or as it should be; and how many are as they should be. */
function expectWhole(folder: string): number {
  let done = 0;
  for (const [at, text] of old.entries()) {
    const now = readFileSync(join(folder, nameOf(at)), 'utf8');
    if (now !== text) expect(now, nameOf(at)).toBe(mended[at]);
    if (now === mended[at]) done++;
  }
  return done;
}

const foldersOf = (folder: string): readonly string[] =>
  ['set-0', 'set-1', 'set-2'].map(name => join(folder, name));
const litter = (folder: string): readonly string[] =>
  foldersOf(folder).flatMap(each => readdirSync(each).filter(name => !/^q\d{3}\.md$/.test(name)));

describe('a run of --fix that is killed', () => {
  it.each(['1', '3'])(
    'leaves every note whole and nothing that passes for a note, %s at a time',
    async jobs => {
      let killed = 0;
      for (const moment of moments) {
        const folder = folderOf(Object.fromEntries(old.map((text, at) => [nameOf(at), text])));
        if (await killedRun(folder, moment, jobs)) killed++;
        const done = expectWhole(folder);
        for (const name of litter(folder)) {
          expect(name).toMatch(/^\.leastwise-.*\.part$/);
          expect(isNoteName(name)).toBe(false);
        }
        const next = leastwise(['check', '--fix', '.'], { cwd: folder });
        expect(next).toMatchObject({ status: 0, stderr: '' });
        const made = NOTES - done;
        expect(next.stdout).toContain(
          made === 0
            ? '; nothing was mended'
            : `; ${made} ${made === 1 ? 'fix' : 'fixes'} made in ${made} note`,
        );
        expect(expectWhole(folder)).toBe(NOTES);
        if (made > 0) expect(litter(folder).length).toBeLessThanOrEqual(2);
      }
      // Runs that were over before anybody could kill them prove nothing.
      expect(killed).toBeGreaterThan(moments.length / 2);
    },
  );

  it('has its leftovers taken away by the next one, and only its', () => {
    const folder = folderOf({ 'q1.md': WRONG_NOTE });
    const { pid: gone } = spawnSync(process.execPath, ['-e', '']);
    const machine = hostname().replace(/\W/g, '').slice(0, 40);
    const left = {
      dead: `.leastwise-${machine}-${gone}-0123456789ab.part`,
      old: '.leastwise-elsewhere-1-0123456789ab.part',
      elsewhere: '.leastwise-elsewhere-2-0123456789ab.part',
      alive: `.leastwise-${machine}-${process.pid}-0123456789ab.part`,
      other: '.leastwise-notes.part',
    };
    for (const name of Object.values(left)) writeFileSync(join(folder, name), 'half a no');
    utimesSync(join(folder, left.old), 0, 0);
    expect(leastwise(['check', '--fix', '.'], { cwd: folder })).toMatchObject({ status: 0, stderr: '' });
    expect(readFileSync(join(folder, 'q1.md'), 'utf8')).toBe(RIGHT_NOTE);
    expect(new Set(readdirSync(folder))).toEqual(new Set(['q1.md', left.elsewhere, left.alive, left.other]));
  });
});
