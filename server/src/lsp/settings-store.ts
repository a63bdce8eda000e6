import {
  type Connection,
  DidChangeConfigurationNotification,
  type InitializeParams,
  MessageType,
} from 'vscode-languageserver';
import { DEFAULT_SETTINGS, type Settings } from '../checks/settings.ts';
import { type ConfigFile, readConfigFile } from '../config/config-file.ts';
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

/** A file that the editor hands over. */
interface ServedFile {
  readonly uri: string;
  readonly text: string;
}

/** What holds for the notes of one folder. */
interface Held {
  /** A note of the folder, to ask about it again. */
  readonly about: string;
  readonly settings: Settings;
  readonly editor: unknown;
  readonly served: ServedConfig | null;
  isIgnored(uri: string): boolean;
}

const SECTION = 'leastwise';
const USUAL: Held = {
  about: '',
  settings: DEFAULT_SETTINGS,
  editor: {},
  served: null,
  isIgnored: () => false,
};

/**
 * Keeps the settings of all notes of an editor. The server reads no files: the editor hands the configuration and what
 * says which notes are left out over, if it says (`configFiles`, `ignoreFiles`) that it can.
 */
export function settingsStore(
  connection: Connection,
  { capabilities: client, initializationOptions, workspaceFolders }: InitializeParams,
): SettingsStore {
  const able = (initializationOptions ?? {}) as {
    readonly configFiles?: unknown;
    readonly ignoreFiles?: unknown;
  };
  const [servesFiles, servesIgnoring] = [able.configFiles === true, able.ignoreFiles === true];
  const servesSettings = client.workspace?.configuration === true;
  const isAsked = servesFiles || servesIgnoring || servesSettings;
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

  const ask = async (folder: string, uri: string, asking: number): Promise<Held> => {
    const [editor, served, leavesOut] = await Promise.all([
      servesSettings ? editorSection(connection, uri) : pushed,
      servesFiles ? servedFile(connection, 'leastwise/config', uri) : null,
      servesIgnoring ? servedFile(connection, 'leastwise/ignore', uri).then(leftOutBy) : leavesNothingOut,
    ]);
    // What was asked before a change may be what held before it.
    if (asking !== round) return current(folder, uri);
    const configured = heldFrom(uri, editor, served, rootOf(uri), warn);
    const now = { ...configured, isIgnored: (note: string) => configured.isIgnored(note) || leavesOut(note) };
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
    if (known !== undefined && !stale.has(folder)) return known;
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
  });
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
