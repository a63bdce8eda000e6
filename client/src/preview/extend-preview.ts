import { commands, type ExtensionContext, Uri, workspace } from 'vscode';
import type { Settings } from '../../../server/src/checks/settings.ts';
import { readConfigFile } from '../../../server/src/config/config-file.ts';
import { mergedSettings } from '../../../server/src/config/merged-settings.ts';
import { readSettings } from '../../../server/src/config/read-settings.ts';
import { CONFIG_NAME, nearestConfig } from '../files/nearest-config.ts';
import { type Markdown, previewPlugin } from './preview-plugin.ts';

const SECTION = 'leastwise';

/** What the editor's Markdown preview asks an extension for. */
export interface PreviewExtension {
  extendMarkdownIt<M extends Markdown>(markdown: M): M;
}

/** Adds the cards to the preview; it is drawn anew when a setting or a configuration file changes. */
export function extendPreview({ subscriptions }: ExtensionContext): PreviewExtension {
  /** What the configuration files say, by the notes' folders; null while one is being read. */
  let files = new Map<string, Partial<Settings> | null>();
  const refresh = () => {
    commands.executeCommand('markdown.preview.refresh').then(undefined, () => {});
  };
  const changed = () => {
    files = new Map();
    refresh();
  };
  const look = async (note: Uri, folder: string, into: typeof files) => {
    const file = await nearestConfig(note).catch(() => null);
    into.set(folder, file === null ? {} : readConfigFile(file.text).settings);
    if (into === files) refresh();
  };
  const settingsOf = (document: unknown): Settings | null => {
    const note = document instanceof Uri ? document : null;
    const own = readSettings(workspace.getConfiguration(SECTION, note), false).settings;
    if (note === null) return mergedSettings(own);
    const folder = Uri.joinPath(note, '..').toString();
    const known = files.get(folder);
    if (known === undefined) {
      files.set(folder, null);
      void look(note, folder, files);
    }
    return known ? mergedSettings(own, known) : null;
  };
  const configs = workspace.createFileSystemWatcher(`**/${CONFIG_NAME}`);
  subscriptions.push(
    configs,
    ...[configs.onDidCreate, configs.onDidChange, configs.onDidDelete].map(event => event(changed)),
    workspace.onDidSaveTextDocument(({ uri }) => {
      if (uri.path.endsWith(`/${CONFIG_NAME}`)) changed();
    }),
    workspace.onDidChangeWorkspaceFolders(changed),
    workspace.onDidChangeConfiguration(change => {
      if (change.affectsConfiguration(SECTION)) refresh();
    }),
  );
  return { extendMarkdownIt: previewPlugin(settingsOf) };
}
