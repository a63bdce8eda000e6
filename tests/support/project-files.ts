import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

export const PROJECT_ROOT = new URL('../..', import.meta.url).pathname;

/** Every file that belongs to the project: what git keeps, and what it would keep if it were added. What was removed is gone. */
export function projectFiles(): readonly string[] {
  const listed = execFileSync('git', ['ls-files', '-z', '--cached', '--others', '--exclude-standard'], {
    cwd: PROJECT_ROOT,
    encoding: 'utf8',
    maxBuffer: 64 * 1024 * 1024,
  });
  return [...new Set(listed.split('\0'))]
    .filter(path => path !== '' && existsSync(join(PROJECT_ROOT, path)))
    .sort();
}

export function projectText(path: string): string {
  return readFileSync(join(PROJECT_ROOT, path), 'utf8');
}
