import { join } from 'node:path';
import { build } from 'esbuild';

/**
 * Makes one CommonJS file of the suite, as an extension host loads it, and says where it is.
 *
 * LEASTWISE_SUITE, words of a test's name, makes it a suite of those tests alone.
 *
 * @param {'node' | 'browser'} platform what that host runs on
 */
export async function bundleSuite(platform) {
  const outfile = join(import.meta.dirname, `out/suite-${platform}.cjs`);
  await build({
    entryPoints: [join(import.meta.dirname, 'suite/run.ts')],
    outfile,
    bundle: true,
    platform,
    format: 'cjs',
    target: 'es2022',
    external: ['vscode', 'node:*'],
    define: {
      IN_BROWSER: String(platform === 'browser'),
      NAMED: JSON.stringify(process.env.LEASTWISE_SUITE ?? ''),
    },
    sourcemap: 'inline',
    logLevel: 'warning',
  });
  return outfile;
}
