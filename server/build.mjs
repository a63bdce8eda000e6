// Builds the command, the library, the language server and its client; with --generate it writes the reference pages, the schemas and the settings of the manifest instead.
import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { once } from 'node:events';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { withSettings } from '../client/manifest-settings.mjs';
import { wordsOf } from '../client/words.mjs';
import { libraryTypes } from './library-types.mjs';

const root = join(import.meta.dirname, '..');
/** Stands in the command's code where the digest of all the rest of it goes. */
const DIGEST_PLACE = 'the digest of all the rest';

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

/** Parts of Node that the protocol's library wants only for pipes and for programs beside it; two of them take long to load. */
const loadedWhenNeeded = {
  name: 'loaded-when-needed',
  setup(bundling) {
    const namespace = 'loaded-when-needed';
    bundling.onResolve({ filter: /^(?:node:)?(?:child_process|crypto)$/ }, ({ path, namespace: from }) =>
      from === namespace ? { path, external: true } : { path, namespace },
    );
    bundling.onLoad({ filter: /./, namespace }, ({ path }) => ({
      contents: `module.exports = new Proxy({}, { get: (_, name) => require(${JSON.stringify(path)})[name] })`,
    }));
  },
};

/**
 * The protocol's library is CommonJS. Each module that imports it would copy all of its six hundred names at the start;
 * so one module does, and hands on what the others ask for.
 */
const protocolOnce = {
  name: 'protocol-once',
  setup(bundling) {
    const namespace = 'protocol-once';
    const library = 'vscode-languageserver/node';
    bundling.onResolve({ filter: /^vscode-languageserver(?:\/node)?$/ }, ({ importer }) =>
      importer.startsWith(join(root, 'server/src/')) ? { path: library, namespace } : undefined,
    );
    bundling.onLoad({ filter: /./, namespace }, async () => {
      const names = Object.keys(await import(library)).filter(
        name => /^\w+$/.test(name) && name !== 'default',
      );
      const handOn = names.map(name => `export const ${name} = /* @__PURE__ */ (() => all.${name})();`);
      return { contents: [`import * as all from '${library}';`, ...handOn].join('\n'), resolveDir: root };
    });
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
      define: { 'import.meta.url': 'bundleUrl', BUILD_DIGEST: JSON.stringify(DIGEST_PLACE) },
      banner: { js: 'const bundleUrl=require("node:url").pathToFileURL(__filename).href;' },
    }),
    // For every place where JavaScript runs, a browser's worker included.
    build({
      ...common,
      ...inBrowser,
      entryPoints: ['server/src/index.ts'],
      outfile: 'server/dist/index.mjs',
      format: 'esm',
    }),
    // What an editor runs; the command loads it only when it is told to serve.
    build({
      ...common,
      entryPoints: ['server/src/cli/server-process.ts'],
      outfile: 'server/dist/server.cjs',
      format: 'cjs',
      minify: true,
      plugins: [loadedWhenNeeded, protocolOnce],
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
  for (const name of ['cli', 'server']) rmSync(cacheOf(name), { force: true });
  for (const { outputFiles } of bundles)
    for (const { path, text } of outputFiles) replace(path, withItsDigest(inAscii(text)));
  await Promise.all([writeCacheOfCommand(), writeCacheOfServer()]);
}

function cacheOf(name) {
  return join(root, `server/dist/${name}.cache`);
}

/** esbuild leaves the signs in regular expressions as they are; the launcher reads a bundle a byte a character. */
function inAscii(code) {
  return code.replace(/[^\0-\x7f]/g, sign => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`);
}

/** Code that can tell which build it is, whatever version it calls itself. */
function withItsDigest(code) {
  return code.replaceAll(DIGEST_PLACE, createHash('sha256').update(code).digest('hex'));
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
async function writeCacheOfCommand() {
  const note = join(root, 'examples/01-calipers.md');
  if (existsSync(note))
    await writeCache('cli', `loaded('cli', script).main(['check', ${JSON.stringify(note)}]).then(keep);`, '');
}

/** The same for the server: what it compiles until it has greeted an editor. */
async function writeCacheOfServer() {
  const greeting = { processId: null, rootUri: null, capabilities: { textDocument: { diagnostic: {} } } };
  const messages = [
    { id: 1, method: 'initialize', params: greeting },
    { method: 'initialized', params: {} },
    { id: 2, method: 'shutdown' },
    { method: 'exit' },
  ].map(message => JSON.stringify({ jsonrpc: '2.0', ...message }));
  await writeCache(
    'server',
    `process.argv = [process.argv[0], 'leastwise', 'serve', '--stdio']; process.once('exit', keep); loaded('server', script);`,
    messages.map(message => `Content-Length: ${message.length}\r\n\r\n${message}`).join(''),
  );
}

/** Runs a bundle's `script` in a process of its own, which writes its cache when it comes to `keep`. */
async function writeCache(name, run, input) {
  const beside = `${cacheOf(name)}.${process.pid}`;
  const program = `
    const { compiled, loaded } = require(${JSON.stringify(join(root, 'server/bin/leastwise.js'))});
    const script = compiled('${name}');
    const keep = () => require('node:fs').writeFileSync(${JSON.stringify(beside)}, script.createCachedData());
    ${run}`;
  const child = spawn(process.execPath, ['-e', program], { stdio: ['pipe', 'ignore', 'inherit'] });
  // Left open, for the server ends at once where nobody can speak to it any more.
  child.stdin.write(input);
  const [status] = await once(child, 'exit');
  if (status !== 0) throw new Error(`the code cache of ${name}.cjs could not be made`);
  renameSync(beside, cacheOf(name));
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
  writeFolder('server/types', [['index.d.mts', libraryTypes(root)]]);
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
