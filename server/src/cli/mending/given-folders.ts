import { realpathSync, statSync } from 'node:fs';
import { dirname, sep } from 'node:path';

/**
 * The folders in which the arguments of a command may change something, without links: a folder that is named, the one
 * in which a named note stands, and the one from which a pattern looks.
 */
export async function givenFolders(paths: readonly string[]): Promise<readonly string[]> {
  const folders = new Set<string>();
  for (const path of paths) {
    try {
      folders.add(realpathSync(await folderOf(path)));
    } catch {
      // Whatever is not there is told where it is looked for.
    }
  }
  return [...folders];
}

async function folderOf(path: string): Promise<string> {
  const stats = statSync(path, { throwIfNoEntry: false });
  if (stats !== undefined) return stats.isDirectory() ? path : dirname(path);
  const { default: picomatch } = await import('picomatch');
  const { base } = picomatch.scan(sep === '\\' ? path.replaceAll('\\', '/') : path);
  return base === '' ? '.' : base;
}

/** Whether a file, named without links, stands somewhere in one of the folders. */
export function standsIn(folders: ReadonlySet<string>, file: string): boolean {
  for (let folder = dirname(file); ; folder = dirname(folder)) {
    if (folders.has(folder)) return true;
    if (folder === dirname(folder)) return false;
  }
}
