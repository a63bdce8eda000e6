import { isUtf8 } from 'node:buffer';
import { readdirSync } from 'node:fs';
import { basename, dirname } from 'node:path';

/** What stands in a name for bytes that are no text. */
const UNREAD = '\ufffd';

/**
 * Says of paths, each as often as it is found, whether a name was misread: it is not written in UTF-8, and only looks like
 * the path of a file, perhaps of another that does have that sign in its name. A folder's path ends in a slash.
 */
export function misreadNames(): (path: string) => boolean {
  const known = new Map<string, Map<string, number>>();
  return path => {
    const name = basename(path) + (path.endsWith('/') ? '/' : '');
    if (!name.includes(UNREAD)) return false;
    const folder = dirname(path);
    const left = known.get(folder) ?? misreadIn(folder);
    known.set(folder, left);
    const times = left.get(name) ?? 0;
    left.set(name, times - 1);
    return times > 0;
  };
}

/** How often each name in a folder is what something else is misread as. */
function misreadIn(folder: string): Map<string, number> {
  const times = new Map<string, number>();
  try {
    for (const entry of readdirSync(folder, { encoding: 'buffer', withFileTypes: true })) {
      if (isUtf8(entry.name)) continue;
      const name = entry.name.toString('utf8') + (entry.isDirectory() ? '/' : '');
      times.set(name, (times.get(name) ?? 0) + 1);
    }
  } catch {
    // A folder that cannot be read is told by whoever looks for notes in it.
  }
  return times;
}
