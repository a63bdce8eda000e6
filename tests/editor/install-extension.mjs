import { cpSync, mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { PROJECT } from './workspace.mjs';

/** Puts the extension into an editor's folder of extensions, with no more files than its package has. */
export function installExtension(extensions) {
  const { publisher, name, version } = JSON.parse(readFileSync(join(PROJECT, 'package.json'), 'utf8'));
  const folder = join(extensions, `${publisher}.${name}-${version}`);
  for (const path of packaged()) {
    mkdirSync(join(folder, dirname(path)), { recursive: true });
    cpSync(join(PROJECT, path), join(folder, path));
  }
}

/** The files that .vscodeignore does not leave out: it leaves out all but what it names behind a `!`. */
function packaged() {
  return readFileSync(join(PROJECT, '.vscodeignore'), 'utf8')
    .split('\n')
    .filter(line => line.startsWith('!'))
    .flatMap(line => {
      const path = line.slice(1);
      if (!path.includes('*')) return path;
      const ending = path.slice(path.indexOf('*') + 1);
      return readdirSync(join(PROJECT, dirname(path)))
        .filter(each => each.endsWith(ending))
        .map(each => `${dirname(path)}/${each}`);
    });
}
