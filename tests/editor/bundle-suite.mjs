import { join } from 'node:path';
import { build } from 'esbuild';

/** Makes one CommonJS file of the suite, as an extension host loads it, and says where it is. */
export async function bundleSuite() {
  const outfile = join(import.meta.dirname, 'out/suite.cjs');
  await build({
    entryPoints: [join(import.meta.dirname, 'suite/run.ts')],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'cjs',
    target: 'node20',
    external: ['vscode'],
    sourcemap: 'inline',
    logLevel: 'warning',
  });
  return outfile;
}
