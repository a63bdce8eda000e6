import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

const root = new URL('../..', import.meta.url).pathname;
const built = join(root, 'server/dist/cli.cjs');

/** Builds the command where anything that goes into it is newer than the last build. */
export function buildIfStale(): void {
  const builtAt = existsSync(built) ? statSync(built).mtimeMs : 0;
  if (newest(join(root, 'server/src')) < builtAt && newest(join(root, 'server/build.mjs')) < builtAt) return;
  execFileSync(process.execPath, [join(root, 'server/build.mjs')], {
    stdio: ['ignore', 'inherit', 'inherit'],
  });
}

function newest(path: string): number {
  const stats = statSync(path);
  if (!stats.isDirectory()) return stats.mtimeMs;
  return Math.max(stats.mtimeMs, ...readdirSync(path).map(name => newest(join(path, name))));
}
