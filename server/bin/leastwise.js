#!/usr/bin/env node
// Starts the command from its bundle. The folder's package.json makes this file CommonJS, and the bundle
// is compiled with V8's code cache from the build: both save a good part of the start.
const { readFileSync } = require('node:fs');
const { join } = require('node:path');
const { Script } = require('node:vm');

const bundle = join(__dirname, '../dist/cli.cjs');
const cache = join(__dirname, '../dist/cli.cache');

/** The bundle as a script; without a cache that this Node accepts it is just compiled. */
function compiled() {
  // The build writes nothing but ASCII, and latin1 is read fastest.
  return new Script(readFileSync(bundle, 'latin1'), { filename: bundle, cachedData: cacheData() });
}

function cacheData() {
  try {
    return readFileSync(cache);
  } catch {
    return undefined;
  }
}

/** What the bundle exports: it is a function of what Node hands to a module. */
function loaded(script) {
  const own = { exports: {} };
  script.runInThisContext()(require, own, own.exports, bundle);
  return own.exports;
}

function start() {
  let script;
  try {
    script = compiled();
  } catch (error) {
    if (error.code !== 'ENOENT') throw error;
    process.stderr.write('leastwise: the command is not built yet: run `npm run build` once\n');
    process.exitCode = 2;
    return;
  }
  loaded(script)
    .main(process.argv.slice(2))
    .then(status => {
      process.exitCode = status;
    });
}

module.exports = { compiled, loaded };

if (require.main === module) start();
