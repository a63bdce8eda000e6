import picomatch from 'picomatch';
import { type Uri, workspace } from 'vscode';

/** Whether a path within a folder of the workspace is left out where notes are looked for. */
export type IsLeftOut = (path: string) => boolean;

/** The settings of the editor that say what is left out of a search. */
export const LEAVING_OUT = ['files.exclude', 'search.exclude'] as const;

/** What the editor leaves out of a search, and what the command leaves out: names with a dot, node_modules. */
export function leftOut(folder: Uri): IsLeftOut {
  const matchers = LEAVING_OUT.flatMap(setting => patternsOf(folder, setting)).flatMap(matcher);
  return path => {
    const name = path.slice(path.lastIndexOf('/') + 1);
    return name.startsWith('.') || name === 'node_modules' || matchers.some(matches => matches(path));
  };
}

function patternsOf(folder: Uri, setting: string): readonly string[] {
  const patterns = workspace.getConfiguration(undefined, folder).get<Record<string, unknown>>(setting) ?? {};
  return Object.entries(patterns)
    .filter(([, isOn]) => isOn === true)
    .map(([pattern]) => pattern);
}

/** None for a pattern that nobody can read. */
function matcher(pattern: string): readonly IsLeftOut[] {
  try {
    return [picomatch(pattern, { dot: true, windows: false })];
  } catch {
    return [];
  }
}
