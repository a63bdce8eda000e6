import { spawn } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readCacheEntry } from '../../server/src/cli/cache/cache-entry.ts';
import { pick, whole } from '../properties/generators/draw.ts';
import { drawVernierNote } from '../properties/generators/vernier-note.ts';
import { entriesOf } from '../support/cache.ts';
import { folderOf, LAUNCHER, leastwise, type Run } from '../support/command.ts';
import { drawSeed } from '../support/seed.ts';

const seed = drawSeed('cache-kill');
const NOTES = 80;

/** A bank of notes of which no two are alike. */
function bank(): string {
  const texts = fc.sample(
    fc.gen().map(draw => drawVernierNote(draw, pick(draw, ['direct', 'odd', 'extended'])).text),
    { seed, numRuns: NOTES },
  );
  return folderOf(
    Object.fromEntries(texts.map((text, at) => [`notes/n${at}.md`, `${text}\nSheet ${at}.\n`])),
  );
}

const WORDS = ['check', 'notes', '--format', 'json'];

interface Started {
  readonly kill: () => void;
  readonly isOver: () => boolean;
  readonly over: Promise<Run>;
}

/** Starts a run without waiting for it. */
function start(cwd: string, ...words: readonly string[]): Started {
  const child = spawn(process.execPath, [LAUNCHER, ...WORDS, '--cache', ...words], { cwd });
  const said = { stdout: '', stderr: '' };
  for (const name of ['stdout', 'stderr'] as const)
    child[name].setEncoding('utf8').on('data', (text: string) => {
      said[name] += text;
    });
  let isOver = false;
  const over = new Promise<Run>((resolve, reject) => {
    child.on('error', reject);
    child.on('close', status => {
      isOver = true;
      resolve({ status, ...said });
    });
  });
  return { kill: () => child.kill('SIGKILL'), isOver: () => isOver, over };
}

/** Looks again and again until something is so; gives up with the test's own time. */
async function until(isSo: () => boolean): Promise<void> {
  while (!isSo()) await new Promise(resolve => setImmediate(resolve));
}

function expectWhole(cache: string): void {
  for (const path of entriesOf(cache)) {
    const key = path.split('/').slice(-2).join('');
    expect(readCacheEntry(key, readFileSync(path)), path).not.toBeNull();
  }
}

describe('a run that is killed', () => {
  it.each([
    ['alone', ['--jobs', '1']],
    ['in two threads', ['--jobs', '2']],
  ])('at any moment, working %s, leaves a cache that serves the next', async (_, words) => {
    const cwd = bank();
    const cache = join(cwd, '.leastwise-cache');
    const plain = leastwise(WORDS, { cwd });
    const moments = fc.sample(
      fc.gen().map(draw => whole(draw, 0, 12)),
      { seed, numRuns: 7 },
    );
    let kept = 0;
    for (const more of moments) {
      const run = start(cwd, ...words);
      const enough = kept + more;
      await until(() => run.isOver() || (existsSync(cache) && entriesOf(cache).length >= enough));
      run.kill();
      expect((await run.over).stderr).toBe('');
      kept = entriesOf(cache).length;
      expectWhole(cache);
    }
    expect(kept).toBeGreaterThan(0);
    for (const _ of ['filled up', 'used']) {
      expect(leastwise([...WORDS, '--cache', ...words], { cwd })).toEqual(plain);
      expect(entriesOf(cache)).toHaveLength(NOTES);
    }
    expectWhole(cache);
  });
});

describe('runs that share a cache', () => {
  it('at once give what each alone would give', async () => {
    const cwd = bank();
    const plain = leastwise(WORDS, { cwd });
    const runs = ['1', '2', '1'].map(jobs => start(cwd, '--jobs', jobs));
    for (const run of runs) expect(await run.over).toEqual(plain);
    expect(entriesOf(join(cwd, '.leastwise-cache'))).toHaveLength(NOTES);
    expectWhole(join(cwd, '.leastwise-cache'));
  });

  it('go on where the other is killed', async () => {
    const cwd = bank();
    const cache = join(cwd, '.leastwise-cache');
    const plain = leastwise(WORDS, { cwd });
    const [one, other] = [start(cwd), start(cwd)];
    await until(() => existsSync(cache) && entriesOf(cache).length > 5);
    one.kill();
    expect(await other.over).toEqual(plain);
    await one.over;
    expect(leastwise([...WORDS, '--cache'], { cwd })).toEqual(plain);
  });
});
