import { lstatSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { lineIndex, placeAt } from '../checks/line-index.ts';
import { DEFAULT_SETTINGS, type Settings } from '../checks/settings.ts';
import { CONFIGURATION, readNote } from './read.ts';

/** Which configuration counts: the nearest above each note, a named one, or none. */
export type ConfigChoice =
  | { readonly kind: 'nearest' }
  | { readonly kind: 'file'; readonly path: string }
  | { readonly kind: 'none' };

/** What `--config FILE` and `--no-config` choose, as the command line hands them over. */
export function configChoice(typed: string | boolean | undefined): ConfigChoice {
  if (typeof typed === 'string') return { kind: 'file', path: typed };
  return { kind: typed === false ? 'none' : 'nearest' };
}

/** How a note is looked at, or why nobody can tell. */
export type NoteSettings =
  | {
      readonly ok: true;
      readonly settings: Settings;
      /** The file that says so; null where none does. */
      readonly config: string | null;
      /** Whether the note is left out of checks. */
      readonly isIgnored: boolean;
      /** What says so; null for a note that is checked. */
      readonly ignoredBy: string | null;
    }
  /** The same sentences for each note that the file holds for. */
  | { readonly ok: false; readonly troubles: readonly string[] };

const USUAL: NoteSettings = {
  ...{ ok: true, settings: DEFAULT_SETTINGS, config: null },
  ...{ isIgnored: false, ignoredBy: null },
};
/** So many folders are known by heart; a further one is looked into again. */
const FOLDERS_KEPT = 2000;
const CONFIG_NAME = 'leastwise.config.json';
const IGNORE_NAME = '.leastwiseignore';

/** Whether a file says how notes are looked at by its name; in small letters or not, for some systems know no difference. */
export function isSettingsName(name: string): boolean {
  return [CONFIG_NAME, IGNORE_NAME].includes(name.toLowerCase());
}

interface Config {
  readonly path: string;
  readonly settings: Settings;
  isIgnored(path: string): boolean;
}

interface Ignore {
  isIgnored(path: string): boolean;
}

interface Broken {
  readonly troubles: readonly string[];
}

/** Finds the settings of notes, by their paths. A folder is looked into once, as long as there are not too many, and every file read once. */
export function noteSettings(choice: ConfigChoice): (notePath: string) => Promise<NoteSettings> {
  const nearestConfig = nearestAbove(CONFIG_NAME);
  const nearestIgnore = nearestAbove(IGNORE_NAME);
  const configOf = onceEach(loadedConfig);
  const ignoreOf = onceEach(loadedIgnore);

  const configured = async (whole: string | null): Promise<NoteSettings> => {
    const path = choice.kind === 'file' ? choice.path : whole === null ? null : nearestConfig(dirname(whole));
    if (path === null) return USUAL;
    const config = await configOf(path);
    if ('troubles' in config) return { ok: false, troubles: config.troubles };
    const shown = shownPath(path);
    const isIgnored = whole !== null && config.isIgnored(whole);
    const ignoredBy = isIgnored ? `\`ignore\` in ${shown}` : null;
    return { ok: true, settings: config.settings, config: shown, isIgnored, ignoredBy };
  };

  return async notePath => {
    if (choice.kind === 'none') return USUAL;
    const whole = wholePath(notePath);
    const how = await configured(whole);
    const path = whole === null ? null : nearestIgnore(dirname(whole));
    if (!how.ok || whole === null || path === null) return how;
    const ignore = await ignoreOf(path);
    if ('troubles' in ignore) return { ok: false, troubles: ignore.troubles };
    return ignore.isIgnored(whole) ? { ...how, isIgnored: true, ignoredBy: shownPath(path) } : how;
  };
}

/** Whatever is read from a file, read when it is first asked for. */
function onceEach<Read>(load: (path: string) => Promise<Read>): (path: string) => Promise<Read> {
  const known = new Map<string, Promise<Read>>();
  return path => {
    const before = known.get(path) ?? load(path);
    known.set(path, before);
    return before;
  };
}

/** Finds a file of some name in a folder, else in the nearest above it. */
function nearestAbove(name: string): (folder: string) => string | null {
  const known = new Map<string, string | null>();
  const nearest = (folder: string): string | null => {
    const before = known.get(folder);
    if (before !== undefined) return before;
    const here = join(folder, name);
    const above = dirname(folder);
    const found = isThere(here) ? here : above === folder ? null : nearest(above);
    // A bank may have a folder for each of its notes.
    if (known.size > FOLDERS_KEPT) known.clear();
    known.set(folder, found);
    return found;
  };
  return nearest;
}

async function loadedIgnore(path: string): Promise<Ignore | Broken> {
  const file = readNote(path, shownPath(path), CONFIGURATION);
  if (!file.ok) return { troubles: [file.trouble] };
  const { ignoreFile } = await import('../config/ignore-file.ts');
  const isIgnored = ignoreFile(file.text);
  return { isIgnored: note => isIgnored(pathFrom(dirname(path), note)) };
}

/** Loads what reads a configuration only where there is one: a small note must not wait for it. */
async function loadedConfig(path: string): Promise<Config | Broken> {
  const shown = shownPath(path);
  const file = readNote(path, shown, CONFIGURATION);
  if (!file.ok) return { troubles: [file.trouble] };
  const { readConfigFile } = await import('../config/config-file.ts');
  const { mergedSettings } = await import('../config/merged-settings.ts');
  const { ignoredNotes } = await import('../config/ignored-notes.ts');
  const folder = dirname(resolve(path));
  const { settings, troubles } = readConfigFile(file.text, folder);
  if (troubles.length > 0) {
    const index = lineIndex(file.text);
    return {
      troubles: troubles.map(({ span, message }) => {
        const { line, column } = placeAt(index, span.start);
        return `${shown}:${line}:${column}: ${message}`;
      }),
    };
  }
  const merged = mergedSettings(settings);
  const isIgnored = ignoredNotes(merged.ignore);
  return {
    path,
    settings: merged,
    isIgnored: note => isIgnored(pathFrom(folder, note)),
  };
}

function pathFrom(folder: string, note: string): string {
  return relative(folder, note).split(sep).join('/');
}

/** As short as it can be said from where the command runs. */
function shownPath(path: string): string {
  const whole = wholePath(path);
  if (whole === null) return path;
  const short = relative('.', whole);
  return short !== '' && short.length < whole.length ? short : whole;
}

/** Null where the folder in which the command runs is gone. */
function wholePath(path: string): string | null {
  try {
    return resolve(path);
  } catch {
    return null;
  }
}

/** Whether anything has that name; what is no file is told by its reading, for somebody means it to hold. */
function isThere(path: string): boolean {
  try {
    return lstatSync(path, { throwIfNoEntry: false }) !== undefined;
  } catch {
    // A folder that nobody may look into holds nothing for us.
    return false;
  }
}
