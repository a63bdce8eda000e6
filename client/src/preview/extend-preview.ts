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

/** How long the first preview waits for what the configuration files say, in milliseconds. */
const AT_FIRST = 1000;

/** What the editor's Markdown preview asks an extension for. */
export interface PreviewExtension {
  extendMarkdownIt<M extends Markdown>(markdown: M): M;
}

/**
 * Adds the cards to the preview; it is drawn anew when a setting or a configuration file changes. What the open notes'
 * configuration files say is read first, for an editor that is told to draw a preview anew while it is still being loaded
 * may leave it as it is for good.
 */
export async function extendPreview({ subscriptions }: ExtensionContext): Promise<PreviewExtension> {
  /** What the configuration files say, by the notes' folders; a note of one that is not there yet tells nothing. */
  let files = new Map<string, Partial<Settings>>();
  const reading = new Set<string>();
  /** The folders of which a preview was drawn before it was known what they may be told. */
  const missed = new Set<string>();
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
    if (missed.delete(folder)) setTimeout(refresh, WHILE_DRAWN);
  };
  const settingsOf = (document: unknown): Settings | null => {
    const note = document instanceof Uri ? document : null;
    const own = readSettings(workspace.getConfiguration(SECTION, note), false).settings;
    if (note === null) return mergedSettings(own);
    const folder = Uri.joinPath(note, '..').toString();
    const known = files.get(folder);
    if (known !== undefined) return mergedSettings(own, known);
    missed.add(folder);
    void lookAt(note);
    return null;
  };
  /** A note is open before its preview is, so that mostly all is known by then. */
  const opened = async ({ languageId, uri }: TextDocument) => {
    if (languageId === 'markdown') await lookAt(uri);
  };
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
  const known = Promise.all(workspace.textDocuments.map(opened));
  await Promise.race([known, new Promise(resolve => setTimeout(resolve, AT_FIRST))]);
  return { extendMarkdownIt: previewPlugin(settingsOf) };
}
