import { spawn } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { writeSettings } from './settings.mjs';

const START_WITHIN = 60_000;
const LOG_LINES = 40;

/**
 * Starts the editor's server on a free port. `stop` ends it with all that it has started.
 *
 * @param {{ node: string, server: string }} editor
 * @param {{ data: string, more?: readonly string[], settings?: object }} options where it keeps its data
 * @returns {Promise<{ address: string, authority: string, group: number, logs(): string, stop(): Promise<void> }>} `group`:
 * the group of its processes
 */
export async function startEditor({ node, server }, { data, more = [], settings = {} }) {
  writeSettings(join(data, 'data'), settings);
  const started = spawn(
    node,
    [
      server,
      ...['--host', '127.0.0.1', '--port', '0', '--without-connection-token'],
      ...['--accept-server-license-terms', '--disable-telemetry', '--disable-workspace-trust'],
      ...['--server-data-dir', data],
      ...more,
    ],
    // A group of its own, so that the extension hosts end with it.
    { detached: true, stdio: ['ignore', 'pipe', 'pipe'] },
  );
  let said = '';
  const ended = new Promise(resolve => started.once('close', resolve));
  // Whoever ends this run early leaves nothing behind.
  const endAtOnce = () => endGroup(started.pid, 'SIGKILL');
  process.once('exit', endAtOnce);
  const stop = async () => {
    endGroup(started.pid, 'SIGTERM');
    const late = setTimeout(endAtOnce, 10_000);
    await ended;
    clearTimeout(late);
    endAtOnce();
    process.off('exit', endAtOnce);
  };
  const port = await new Promise((resolve, reject) => {
    const fail = why => reject(new Error(`The editor's server ${why}\n${said}`));
    const late = setTimeout(() => fail('does not start'), START_WITHIN);
    started.once('close', () => clearTimeout(late));
    const listen = chunk => {
      said += chunk;
      const [, found] = /agent listening on (\d+)/.exec(said) ?? [];
      if (found === undefined) return;
      clearTimeout(late);
      resolve(Number(found));
    };
    started.stdout.on('data', listen);
    started.stderr.on('data', listen);
    started.once('error', error => fail(`cannot be started: ${error.message}`));
    started.once('close', code => fail(`ended at once with ${code}`));
  }).catch(async error => {
    await stop();
    throw error;
  });
  const authority = `127.0.0.1:${port}`;
  return { address: `http://${authority}`, authority, group: started.pid, logs: () => logsUnder(data), stop };
}

/** What the extension host and the language server wrote down, the last of each. */
function logsUnder(data) {
  return readdirSync(data, { recursive: true, withFileTypes: true })
    .filter(entry => entry.isFile() && /^remoteexthost\.log$|leastwise.*\.log$/.test(entry.name))
    .map(({ parentPath, name }) => [name, readFileSync(join(parentPath, name), 'utf8').trim()])
    .filter(([, text]) => text !== '')
    .map(([name, text]) => `--- ${name}\n${text.split('\n').slice(-LOG_LINES).join('\n')}`)
    .join('\n');
}

function endGroup(pid, signal) {
  if (pid === undefined) return;
  try {
    process.kill(-pid, signal);
  } catch (error) {
    if (error.code !== 'ESRCH') throw error;
  }
}
