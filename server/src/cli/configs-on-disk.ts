import { type Stats, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { CONFIG_NAME } from '../config/config-file.ts';
import type { FoundConfigs } from '../lsp/settings-store.ts';
import { CONFIGURATION, readNote } from './read.ts';

/**
 * Finds the configuration that holds for a note as `check` does, in its folder or the nearest above it, for an editor that
 * hands none over. Looks again whenever it is asked, since nobody may tell that a file has changed.
 */
export function configsOnDisk(): FoundConfigs {
  return {
    configOf(uri) {
      const path = nearest(uri)?.path;
      if (path === undefined) return null;
      const file = readNote(path, path, CONFIGURATION);
      return file.ok ? { uri: pathToFileURL(path).href, text: file.text } : { trouble: file.trouble };
    },
    stateOf(uri) {
      const found = nearest(uri);
      return found === null
        ? ''
        : `${found.path} ${found.stats.mtimeMs} ${found.stats.size} ${found.stats.ino}`;
    },
  };
}

function nearest(uri: string): { readonly path: string; readonly stats: Stats } | null {
  const note = pathOf(uri);
  if (note === null) return null;
  for (let folder = dirname(note); ; folder = dirname(folder)) {
    const path = join(folder, CONFIG_NAME);
    const stats = statsOf(path);
    if (stats !== null) return { path, stats };
    if (dirname(folder) === folder) return null;
  }
}

/** Null for what is no file of this disk. */
function pathOf(uri: string): string | null {
  try {
    return uri.startsWith('file:') ? fileURLToPath(uri) : null;
  } catch {
    return null;
  }
}

/** Null where there is no such file, or nobody may look. */
function statsOf(path: string): Stats | null {
  try {
    return statSync(path, { throwIfNoEntry: false }) ?? null;
  } catch {
    return null;
  }
}
