import { commands, type ExtensionContext, type TextDocument, Uri, workspace } from 'vscode';
import type { Settings } from '../../../server/src/checks/settings.ts';
import { readConfigFile } from '../../../server/src/config/config-file.ts';
import { mergedSettings } from '../../../server/src/config/merged-settings.ts';
import { readSettings } from '../../../server/src/config/read-settings.ts';
import { CONFIG_NAME, nearestConfig } from '../files/nearest-config.ts';
import { type Markdown, previewPlugin } from './preview-plugin.ts';

const SECTION = 'leastwise';

/** How long a preview is drawn at most, as a rule, in milliseconds. */
const WHILE_DRAWN = 500;

/** What the editor's Markdown preview asks an extension for. */
export interface PreviewExtension {
  extendMarkdownIt<M extends Markdown>(markdown: M): M;
}

/** Adds the cards to the preview; it is drawn anew when a setting or a configuration file changes. */
export function extendPreview({ subscriptions }: ExtensionContext): PreviewExtension {
  /** What the configuration files say, by the notes' folders; a note of one that is not there yet tells nothing. */
  let files = new Map<string, Partial<Settings>>();
  const reading = new Set<string>();
  const refresh = () => {
    commands.executeCommand('markdown.preview.refresh').then(undefined, () => {});
  };
  const read = async (folder: string): Promise<Partial<Settings>> => {
    const file = await nearestConfig(Uri.joinPath(Uri.parse(folder, true), 'note.md')).catch(() => null);
    return file === null ? {} : readConfigFile(file.text).settings;
  };
  /** Drawn anew only when all is known: a preview that is just being drawn would go on with what it has begun. */
  const changed = async () => {
    const folders = [...files.keys()];
    const all = await Promise.all(folders.map(async folder => [folder, await read(folder)] as const));
    files = new Map([...files, ...all]);
    refresh();
  };
  const lookAt = async (note: Uri) => {
    const folder = Uri.joinPath(note, '..').toString();
    if (files.has(folder) || reading.has(folder)) return;
    reading.add(folder);
    const known = await read(folder);
    reading.delete(folder);
    files.set(folder, known);
    setTimeout(refresh, WHILE_DRAWN);
  };
  const settingsOf = (document: unknown): Settings | null => {
    const note = document instanceof Uri ? document : null;
    const own = readSettings(workspace.getConfiguration(SECTION, note), false).settings;
    if (note === null) return mergedSettings(own);
    const known = files.get(Uri.joinPath(note, '..').toString());
    if (known === undefined) void lookAt(note);
    return known === undefined ? null : mergedSettings(own, known);
  };
  /** A note is open before its preview is, so that mostly all is known by then. */
  const opened = ({ languageId, uri }: TextDocument) => {
    if (languageId === 'markdown') void lookAt(uri);
  };
  workspace.textDocuments.forEach(opened);
  const configs = workspace.createFileSystemWatcher(`**/${CONFIG_NAME}`);
  subscriptions.push(
    configs,
    workspace.onDidOpenTextDocument(opened),
    ...[configs.onDidCreate, configs.onDidChange, configs.onDidDelete].map(event => event(changed)),
    workspace.onDidSaveTextDocument(({ uri }) => {
      if (uri.path.endsWith(`/${CONFIG_NAME}`)) void changed();
    }),
    workspace.onDidChangeWorkspaceFolders(changed),
    workspace.onDidChangeConfiguration(change => {
      if (change.affectsConfiguration(SECTION)) refresh();
    }),
  );
  return { extendMarkdownIt: previewPlugin(settingsOf) };
}
