import {
  type Connection,
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  type InitializeParams,
  MessageType,
} from 'vscode-languageserver';
import { DEFAULT_SETTINGS, type Settings } from '../checks/settings.ts';
import { CONFIG_NAME, type ConfigFile, readConfigFile } from '../config/config-file.ts';
import { ignoredNotes } from '../config/ignored-notes.ts';
import { mergedSettings } from '../config/merged-settings.ts';
import { readSettings } from '../config/read-settings.ts';
import { type ServedConfig, showConfigTroubles } from './config-troubles.ts';
import { folderOf, pathWithin } from './uri-paths.ts';

/** How each note is to be looked at: by the configuration file nearest to it, and else by the editor's settings. */
export interface SettingsStore {
  /** Asks the editor where it has not been asked yet. */
  of(uri: string): Settings | Promise<Settings>;
  /** What is known of them by now. */
  known(uri: string): Settings;
  /** All that the editor's own settings hold under `leastwise`. */
  editor(uri: string): unknown;
  /** Whether a note that nobody opened is left out of checks; once its settings are known. */
  isIgnored(uri: string): boolean;
  /** Calls when settings may have changed. */
  onChange(listener: () => void): void;
}

/** A file that the editor hands over, or that is found without it. */
export interface ServedFile {
  readonly uri: string;
  readonly text: string;
}

/** Finds the configuration files of notes on a disk, for editors that hand none over. */
export interface FoundConfigs {
  /** The nearest one, or why it cannot be read; null where there is none. */
  configOf(uri: string): ServedFile | { readonly trouble: string } | null;
  /** Something else as soon as the answer may be another one. */
  stateOf(uri: string): string;
}

/** What holds for the notes of one folder. */
interface Held {
  /** A note of the folder, to ask about it again. */
  readonly about: string;
  readonly settings: Settings;
  readonly editor: unknown;
  readonly served: ServedConfig | null;
  /** Of the files that were found without the editor. */
  readonly state: string;
  isIgnored(uri: string): boolean;
}

const SECTION = 'leastwise';
const WATCHED = { watchers: [{ globPattern: `**/${CONFIG_NAME}` }] };
const USUAL: Held = {
  about: '',
  settings: DEFAULT_SETTINGS,
  editor: {},
  served: null,
  state: '',
  isIgnored: () => false,
};

/**
 * Keeps the settings of all notes of an editor. The editor hands the configuration and what says which notes are left out
 * over, if it says (`configFiles`, `ignoreFiles`) that it can; the configuration is `found` without it otherwise, where the
 * server runs beside a disk.
 */
export function settingsStore(
  connection: Connection,
  { capabilities: client, initializationOptions, workspaceFolders }: InitializeParams,
  found: FoundConfigs | null = null,
): SettingsStore {
  const able = (initializationOptions ?? {}) as {
    readonly configFiles?: unknown;
    readonly ignoreFiles?: unknown;
  };
  const [servesFiles, servesIgnoring] = [able.configFiles === true, able.ignoreFiles === true];
  const servesSettings = client.workspace?.configuration === true;
  const configs = servesFiles ? null : found;
  const isAsked = servesFiles || servesIgnoring || servesSettings || configs !== null;
  const held = new Map<string, Held>();
  const asked = new Map<string, Promise<Held>>();
  /** Folders to ask about again. */
  const stale = new Set<string>();
  const listeners: (() => void)[] = [];
  const warn = onceEach(message => {
    const params = { type: MessageType.Warning, message };
    connection.sendNotification('window/showMessage', params).catch(ignore);
  });
  /** What an editor that cannot be asked has said by itself. */
  let pushed: unknown = {};
  let round = 0;

  const rootOf = (uri: string): string | null =>
    (workspaceFolders ?? [])
      .map(folder => folder.uri)
      .filter(root => pathWithin(root, uri) !== null)
      .sort((a, b) => b.length - a.length)[0] ?? null;

  const foundConfig = (uri: string): ServedFile | null => {
    const config = configs?.configOf(placeOf(uri)) ?? null;
    if (config === null || !('trouble' in config)) return config;
    warn(`the configuration of leastwise cannot be used: ${config.trouble}`);
    return null;
  };
  const stateOf = (uri: string): string => configs?.stateOf(placeOf(uri)) ?? '';
  /** A note that was never saved is taken as one of the first folder. */
  const placeOf = (uri: string): string => {
    const first = workspaceFolders?.[0]?.uri;
    return uri.startsWith('untitled:') && first !== undefined
      ? `${first.replace(/\/$/, '')}/untitled.md`
      : uri;
  };

  const ask = async (folder: string, uri: string, asking: number): Promise<Held> => {
    const state = stateOf(uri);
    const [editor, served, leavesOut] = await Promise.all([
      servesSettings ? editorSection(connection, uri) : pushed,
      servesFiles ? servedFile(connection, 'leastwise/config', uri) : foundConfig(uri),
      servesIgnoring ? servedFile(connection, 'leastwise/ignore', uri).then(leftOutBy) : leavesNothingOut,
    ]);
    // What was asked before a change may be what held before it.
    if (asking !== round) return current(folder, uri);
    const configured = heldFrom(uri, editor, served, rootOf(uri), warn);
    const isIgnored = (note: string) => configured.isIgnored(note) || leavesOut(note);
    const now = { ...configured, state, isIgnored };
    held.set(folder, sameAs(held.get(folder), now));
    asked.delete(folder);
    showConfigTroubles(
      connection,
      [...held.values()].flatMap(each => each.served ?? []),
    );
    return held.get(folder) ?? now;
  };

  const current = (folder: string, uri: string): Held | Promise<Held> => {
    if (!isAsked) {
      const known = held.get(folder) ?? heldFrom(uri, pushed, null, rootOf(uri), warn);
      held.set(folder, known);
      return known;
    }
    const before = asked.get(folder);
    if (before !== undefined) return before;
    const known = held.get(folder);
    if (known !== undefined && !stale.has(folder)) {
      if (stateOf(uri) === known.state) return known;
      changed();
      return current(folder, uri);
    }
    stale.delete(folder);
    const answer = ask(folder, uri, round);
    asked.set(folder, answer);
    return answer;
  };

  const changed = (): void => {
    round += 1;
    asked.clear();
    if (isAsked) for (const folder of held.keys()) stale.add(folder);
    else held.clear();
    for (const listener of listeners) listener();
    // What is wrong in a file is shown, and goes, even where no note beside it is looked at just now.
    for (const [folder, about] of foldersToAsk(held)) void current(folder, about);
  };

  connection.onInitialized(() => {
    if (servesSettings && client.workspace?.didChangeConfiguration?.dynamicRegistration === true)
      connection.client.register(DidChangeConfigurationNotification.type, { section: SECTION }).catch(ignore);
    if (configs !== null && client.workspace?.didChangeWatchedFiles?.dynamicRegistration === true)
      connection.client.register(DidChangeWatchedFilesNotification.type, WATCHED).catch(ignore);
  });
  if (configs !== null) connection.onDidChangeWatchedFiles(changed);
  connection.onDidChangeConfiguration(({ settings }) => {
    pushed = (settings as Record<string, unknown> | null | undefined)?.[SECTION] ?? {};
    changed();
  });
  connection.onNotification('leastwise/configChanged', changed);

  return {
    of(uri) {
      const now = current(folderOf(uri), uri);
      return now instanceof Promise ? now.then(({ settings }) => settings) : now.settings;
    },
    known: uri => (held.get(folderOf(uri)) ?? USUAL).settings,
    editor: uri => (held.get(folderOf(uri)) ?? USUAL).editor,
    isIgnored: uri => (held.get(folderOf(uri)) ?? USUAL).isIgnored(uri),
    onChange: listener => void listeners.push(listener),
  };
}

/** More folders than this are not all asked about as soon as something changes. */
const MOST_FOLDERS = 200;

/** The folders to ask about at once: all, or in a large bank one for each configuration, and those of broken ones. */
function foldersToAsk(held: ReadonlyMap<string, Held>): ReadonlyMap<string, string> {
  const folders = new Map<string, string>();
  const configs = new Set<string | null>();
  for (const [folder, { about, served }] of held) {
    const config = served?.uri ?? null;
    const isBroken = served !== null && served.troubles.length > 0;
    if (held.size <= MOST_FOLDERS || isBroken || !configs.has(config)) folders.set(folder, about);
    configs.add(config);
  }
  return folders;
}

/** Settings of one folder, the file's before the editor's. */
function heldFrom(
  about: string,
  editor: unknown,
  served: ServedFile | null,
  root: string | null,
  warn: (text: string) => void,
): Held {
  const own = readSettings(editor, false);
  for (const { message } of own.troubles) warn(`a setting of leastwise cannot be used: ${message}`);
  const file: ConfigFile = served === null ? { settings: {}, troubles: [] } : readConfigFile(served.text);
  const settings = mergedSettings(own.settings, file.settings);
  const base = served !== null && file.settings.ignore !== undefined ? folderOf(served.uri) : root;
  const isIgnored = ignoredNotes(settings.ignore);
  return {
    about,
    settings,
    editor: editor ?? {},
    served: served && { ...served, troubles: file.troubles },
    state: '',
    isIgnored(uri) {
      const path = base === null ? null : pathWithin(base, uri);
      return path !== null && isIgnored(path);
    },
  };
}

/** The settings object from before where nothing has changed: what was worked out with it still holds. */
function sameAs(before: Held | undefined, now: Held): Held {
  if (before === undefined || JSON.stringify(before.settings) !== JSON.stringify(now.settings)) return now;
  return { ...now, settings: before.settings };
}

async function editorSection(connection: Connection, uri: string): Promise<unknown> {
  try {
    return await connection.workspace.getConfiguration({ scopeUri: uri, section: SECTION });
  } catch (error) {
    connection.console.error(`the editor did not tell its settings: ${String(error)}`);
    return {};
  }
}

/** The file that holds for a note, as the editor finds it; null where it finds none. */
async function servedFile(
  connection: Connection,
  request: 'leastwise/config' | 'leastwise/ignore',
  uri: string,
): Promise<ServedFile | null> {
  try {
    const answer: unknown = await connection.sendRequest(request, { uri });
    const { uri: at, text } = (answer ?? {}) as { readonly uri?: unknown; readonly text?: unknown };
    return typeof at === 'string' && typeof text === 'string' ? { uri: at, text } : null;
  } catch (error) {
    connection.console.error(`the editor did not answer ${request}: ${String(error)}`);
    return null;
  }
}

/** Which notes an ignore file leaves out, by their addresses; what reads one is loaded only where there is one. */
async function leftOutBy(file: ServedFile | null): Promise<(uri: string) => boolean> {
  if (file === null) return leavesNothingOut;
  const { ignoreFile } = await import('../config/ignore-file.ts');
  const isIgnored = ignoreFile(file.text);
  const folder = folderOf(file.uri);
  return uri => {
    const path = pathWithin(folder, uri);
    return path !== null && isIgnored(path);
  };
}

function leavesNothingOut(): boolean {
  return false;
}

/** What an editor refuses it does not want, and one that is gone needs nothing. */
function ignore(): void {}

function onceEach(say: (text: string) => void): (text: string) => void {
  const said = new Set<string>();
  return text => {
    if (said.has(text)) return;
    said.add(text);
    say(text);
  };
}
