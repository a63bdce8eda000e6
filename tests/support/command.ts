import { spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { onTestFinished } from 'vitest';
import { buildIfStale } from './build-if-stale.ts';

export const LAUNCHER = new URL('../../server/bin/leastwise.js', import.meta.url).pathname;
const NOBODY = 65534;

buildIfStale();

export interface Run {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

export interface RunOptions {
  readonly cwd?: string;
  /** What stands on standard input; nothing at all where it is left out. */
  readonly input?: string | Buffer;
  readonly env?: Readonly<Record<string, string>>;
  /** Open files in place of the pipes: what is written there stands in no answer. */
  readonly inputFrom?: number;
  readonly outTo?: number;
  readonly errorTo?: number;
  /** Runs without the rights of an administrator, who may read everything. */
  readonly withoutRights?: boolean;
}

/** Runs the built command as a process of its own, as a tutor's shell would. */
export function leastwise(words: readonly string[], options: RunOptions = {}): Run {
  const { NO_COLOR, FORCE_COLOR, ...environment } = process.env;
  const asNobody = options.withoutRights && process.getuid?.() === 0;
  const run = spawnSync(process.execPath, [LAUNCHER, ...words], {
    cwd: options.cwd,
    ...(options.inputFrom === undefined ? { input: options.input ?? '' } : {}),
    stdio: [options.inputFrom ?? 'pipe', options.outTo ?? 'pipe', options.errorTo ?? 'pipe'],
    env: { ...environment, ...options.env },
    encoding: 'utf8',
    ...(asNobody ? { uid: NOBODY, gid: NOBODY } : {}),
  });
  return { status: run.status, stdout: run.stdout, stderr: run.stderr };
}

/** A folder of files for one test, gone when the test ends. A path that ends in `/` makes a folder. */
export function folderOf(files: Readonly<Record<string, string | Buffer>>): string {
  const folder = mkdtempSync(join(tmpdir(), 'leastwise-'));
  chmodSync(folder, 0o755);
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  for (const [path, content] of Object.entries(files)) {
    const whole = join(folder, path);
    mkdirSync(path.endsWith('/') ? whole : dirname(whole), { recursive: true });
    if (!path.endsWith('/')) writeFileSync(whole, content);
  }
  return folder;
}
