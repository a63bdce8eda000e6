import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '../..');

/** What an editor needs, and nothing else: built code, words, pages and pictures. */
const NEEDED = [
  /^package(?:\.nls)?\.json$/,
  /^(?:README|CHANGELOG)\.md$/,
  /^LICENSE$/,
  /^client\/dist\/(?:extension\.cjs|extension-web\.cjs|server-web\.js)$/,
  /^client\/media\/[a-z-]+\.png$/,
  /^client\/media\/preview\.css$/,
  /^client\/walkthrough\/[a-z-]+\.md$/,
  /^l10n\/bundle\.l10n(?:\.[a-z-]+)?\.json$/,
  /^server\/dist\/server\.cjs$/,
  /^server\/reference\/(?:[a-z-]+\/)?[a-z-]+\.md$/,
  /^server\/reference\/(?:[a-z-]+\/)?figures\/[a-z-]+\.svg$/,
  /^server\/schema\/leastwise\.config\.schema\.json$/,
  /^syntaxes\/[A-Za-z.-]+\.json$/,
];

describe('the package of the extension', () => {
  const listed = execFileSync(
    process.execPath,
    ['node_modules/@vscode/vsce/vsce', 'ls', '--no-dependencies'],
    {
      cwd: root,
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'ignore'],
    },
  );
  const files = listed.split('\n').filter(line => line !== '');

  it('holds only what an editor needs', () => {
    expect(files.length).toBeGreaterThan(10);
    expect(files.filter(path => !NEEDED.some(pattern => pattern.test(path)))).toEqual([]);
  });

  it('holds each kind of it', () => {
    // The bundles are there once they are built.
    const kinds = NEEDED.filter(
      pattern => !pattern.source.includes('dist') || existsSync(join(root, 'client/dist/extension.cjs')),
    );
    expect(kinds.filter(pattern => !files.some(path => pattern.test(path))).map(String)).toEqual([]);
  });
});
