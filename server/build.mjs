// Builds the command, the library, the language server and its client; with --generate it writes the reference pages, the schemas and the settings of the manifest instead.
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { withSettings } from '../client/manifest-settings.mjs';
import { wordsOf } from '../client/words.mjs';

const root = join(import.meta.dirname, '..');
const cache = join(root, 'server/dist/cli.cache');

const common = {
  absWorkingDir: root,
  bundle: true,
  platform: 'node',
  target: 'node20',
  logLevel: 'warning',
  write: false,
  // Its other form loads its parts in a way that no bundler can follow.
  alias: { 'jsonc-parser': 'jsonc-parser/lib/esm/main.js' },
};

/** Libraries have another form for a browser's page than for a worker, which has no page. */
const inBrowser = { platform: 'browser', target: 'es2022', conditions: ['worker'] };

/** Commander can start other programs, which the command never does; loading Node's part for that costs a tenth of the start. */
const withoutPrograms = {
  name: 'without-programs',
  setup(bundling) {
    bundling.onResolve({ filter: /^node:child_process$/ }, () => ({
      path: 'none',
      namespace: 'without-programs',
    }));
    bundling.onLoad({ filter: /^none$/, namespace: 'without-programs' }, () => ({
      contents: 'module.exports = {}',
    }));
  },
};

if (process.argv.includes('--generate')) await generate();
else await buildAll();

async function buildAll() {
  const bundles = await Promise.all([
    // CommonJS in one minified file: what starts fastest on Node 20.
    build({
      ...common,
      entryPoints: ['server/src/cli/main.ts'],
      outfile: 'server/dist/cli.cjs',
      format: 'cjs',
      minify: true,
      plugins: [withoutPrograms],
      supported: { 'dynamic-import': false },
      // A library asks where it stands; CommonJS has another word for it.
      define: { 'import.meta.url': 'bundleUrl' },
      banner: {
        js: '(function(require,module,exports,__filename){const bundleUrl=require("node:url").pathToFileURL(__filename).href;',
      },
      footer: { js: '})' },
    }),
    build({
      ...common,
      entryPoints: ['server/src/index.ts'],
      outfile: 'server/dist/index.mjs',
      format: 'esm',
    }),
    // What an editor runs; the command loads it only when it is told to serve.
    build({
      ...common,
      entryPoints: ['server/src/lsp/node-main.ts'],
      outfile: 'server/dist/server.cjs',
      format: 'cjs',
      minify: true,
    }),
    build({
      ...common,
      entryPoints: ['client/src/extension.ts'],
      outfile: 'client/dist/extension.cjs',
      format: 'cjs',
      minify: true,
      external: ['vscode'],
    }),
    // The same two for an editor in a browser, where the server is a worker.
    build({
      ...common,
      ...inBrowser,
      entryPoints: ['server/src/lsp/browser-main.ts'],
      outfile: 'client/dist/server-web.js',
      format: 'iife',
      minify: true,
    }),
    build({
      ...common,
      ...inBrowser,
      entryPoints: ['client/src/extension-web.ts'],
      outfile: 'client/dist/extension-web.cjs',
      format: 'cjs',
      minify: true,
      external: ['vscode'],
    }),
  ]);
  for (const folder of ['server/dist', 'client/dist']) mkdirSync(join(root, folder), { recursive: true });
  rmSync(cache, { force: true });
  for (const { outputFiles } of bundles)
    for (const { path, text } of outputFiles) replace(path, inAscii(text));
  writeCodeCache();
}

/** esbuild leaves the signs in regular expressions as they are; the launcher reads a bundle a byte a character. */
function inAscii(code) {
  return code.replace(/[^\0-\x7f]/g, sign => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`);
}

/** Puts a whole file in place at once: somebody may be running the one that it replaces. */
function replace(path, contents) {
  const beside = `${path}.${process.pid}`;
  writeFileSync(beside, contents);
  renameSync(beside, path);
}

/**
 * Keeps what V8 compiles when the command checks a note, so that a start need not compile it again. A process
 * of its own does it: the functions that a run has compiled are what is worth keeping. One note is enough,
 * for a larger cache takes longer to read than the rest takes to compile.
 */
function writeCodeCache() {
  const note = join(root, 'examples/01-calipers.md');
  if (!existsSync(note)) return;
  const launcher = join(root, 'server/bin/leastwise.js');
  const script = `
    const { compiled, loaded } = require(${JSON.stringify(launcher)});
    const script = compiled();
    loaded(script).main(['check', ${JSON.stringify(note)}]).then(() => {
      require('node:fs').writeFileSync(${JSON.stringify(`${cache}.${process.pid}`)}, script.createCachedData());
    });`;
  execFileSync(process.execPath, ['-e', script], { stdio: 'ignore' });
  renameSync(`${cache}.${process.pid}`, cache);
}

/** Bundles the generators, which share their declarations with the checks, and writes the pages and the schemas anew. */
async function generate() {
  const { generatedPages } = await bundled('server/src/reference/generated-pages.ts');
  const { generatedSchemas } = await bundled('server/src/config/generated-schemas.ts');
  writeFolder(
    'server/reference',
    generatedPages(readFileSync(join(root, 'server/src/reference/language.md'), 'utf8')),
  );
  const schemas = generatedSchemas();
  writeFolder('server/schema', schemas);
  writeSettings(JSON.parse(schemas.get('editor-settings.json')));
  writeFolder('l10n', [['bundle.l10n.json', `${JSON.stringify(wordsOf(clientSources()), null, 2)}\n`]]);
}

function clientSources() {
  const folder = join(root, 'client/src');
  return readdirSync(folder, { recursive: true })
    .filter(path => path.endsWith('.ts'))
    .map(path => readFileSync(join(folder, path), 'utf8'));
}

/** The manifest of the extension has the same settings as the configuration file. */
function writeSettings(shared) {
  const [manifest, words] = ['package.json', 'package.nls.json'].map(path =>
    JSON.parse(readFileSync(join(root, path), 'utf8')),
  );
  const complete = withSettings(manifest, words, shared);
  for (const [path, content] of [
    ['package.json', complete.manifest],
    ['package.nls.json', complete.words],
  ])
    replace(join(root, path), `${JSON.stringify(content, null, 2)}\n`);
}

async function bundled(entryPoint) {
  const bundle = join(root, 'server/dist', `${basename(entryPoint, '.ts')}.mjs`);
  await build({ ...common, entryPoints: [entryPoint], outfile: bundle, format: 'esm', write: true });
  return import(pathToFileURL(bundle).href);
}

/** Writes all files of a folder anew, by their paths in it. */
function writeFolder(name, files) {
  const folder = join(root, name);
  rmSync(folder, { recursive: true, force: true });
  for (const [path, text] of files) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
}
