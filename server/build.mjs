// Builds the command and the library; with --generate it writes the reference pages instead.
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const root = join(import.meta.dirname, '..');

const common = {
  absWorkingDir: root,
  bundle: true,
  platform: 'node',
  target: 'node20',
  logLevel: 'warning',
};

if (process.argv.includes('--generate')) await generate();
else await buildAll();

async function buildAll() {
  rmSync(join(root, 'server/dist'), { recursive: true, force: true });
  await Promise.all([
    // CommonJS in one minified file: what starts fastest on Node 20.
    build({
      ...common,
      entryPoints: ['server/src/cli/main.ts'],
      outfile: 'server/dist/cli.cjs',
      format: 'cjs',
      minify: true,
      // A library asks where it stands; CommonJS has another word for it.
      define: { 'import.meta.url': 'bundleUrl' },
      banner: { js: 'const bundleUrl=require("node:url").pathToFileURL(__filename).href;' },
    }),
    build({
      ...common,
      entryPoints: ['server/src/index.ts'],
      outfile: 'server/dist/index.mjs',
      format: 'esm',
    }),
  ]);
  writeCodeCache();
}

/**
 * Keeps what V8 compiles when the command checks the examples, so that a start need not compile it again.
 * A process of its own does it: the functions that a run has compiled are what is worth keeping.
 */
function writeCodeCache() {
  const examples = join(root, 'examples');
  if (!existsSync(examples)) return;
  const launcher = join(root, 'server/bin/leastwise.js');
  const script = `
    const { cache, compiled, loaded } = require(${JSON.stringify(launcher)});
    const script = compiled();
    loaded(script).main(['check', ${JSON.stringify(examples)}]).then(() => {
      require('node:fs').writeFileSync(cache, script.createCachedData());
    });`;
  execFileSync(process.execPath, ['-e', script], { stdio: 'ignore' });
}

/** Bundles the generator, which shares its declarations with the checks, and writes the pages anew. */
async function generate() {
  const bundle = join(root, 'server/dist/generated-pages.mjs');
  await build({
    ...common,
    entryPoints: ['server/src/reference/generated-pages.ts'],
    outfile: bundle,
    format: 'esm',
  });
  const { generatedPages } = await import(pathToFileURL(bundle).href);
  const pages = generatedPages(readFileSync(join(root, 'server/src/reference/language.md'), 'utf8'));
  const folder = join(root, 'server/reference');
  rmSync(folder, { recursive: true, force: true });
  for (const [path, text] of pages) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
}
