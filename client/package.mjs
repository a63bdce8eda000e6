// Makes the package that an editor installs, leastwise-VERSION.vsix, and says how large it is.
import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';

const root = join(import.meta.dirname, '..');
const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));

/** The package's path; made from what is built now. */
export function makePackage(path = join(root, `leastwise-${version}.vsix`)) {
  execFileSync(process.execPath, ['server/build.mjs'], { cwd: root, stdio: 'inherit' });
  mkdirSync(dirname(path), { recursive: true });
  execFileSync(
    process.execPath,
    [
      join(root, 'node_modules/@vscode/vsce/vsce'),
      'package',
      // The bundles hold all that they need.
      '--no-dependencies',
      // Pictures and links lead to what is in the package.
      ...['--no-rewrite-relative-links', '--allow-missing-repository'],
      ...['--out', path],
    ],
    { cwd: root, stdio: ['ignore', 'ignore', 'inherit'] },
  );
  return path;
}

if (process.argv[1] === import.meta.filename) {
  const path = makePackage();
  console.log(`${path}: ${Math.ceil(statSync(path).size / 1024)} kB`);
}
