import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** What the editor is told before it starts: nothing of its own may come between a note and what we say about it. */
const SETTINGS = {
  'chat.disableAIFeatures': true,
  'workbench.startupEditor': 'none',
  'extensions.ignoreRecommendations': true,
  'telemetry.telemetryLevel': 'off',
  'update.mode': 'none',
};

/** The same for an editor that keeps no user's settings: in the folder that it opens. */
export function writeSettingsOfFolder(folder, more = {}) {
  mkdirSync(join(folder, '.vscode'));
  writeFileSync(join(folder, '.vscode/settings.json'), JSON.stringify({ ...SETTINGS, ...more }));
}

/** Writes the user's settings into the folder where an editor keeps what belongs to its user. */
export function writeSettings(userData, more = {}) {
  mkdirSync(join(userData, 'User'), { recursive: true });
  writeFileSync(join(userData, 'User/settings.json'), JSON.stringify({ ...SETTINGS, ...more }));
}
