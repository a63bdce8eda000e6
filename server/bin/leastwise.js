#!/usr/bin/env node
// Starts the command from its bundle, or the server that an editor asks for from its own. The folder's package.json
// makes this file CommonJS, and a bundle is compiled with V8's code cache from the build: both save a good part of the
// start.
const { readFileSync } = require('node:fs');
const { join } = require('node:path');
const { Script } = require('node:vm');

const built = join(__dirname, '../dist');

/** A bundle, `cli` or `server`, as a script; without a cache that this Node accepts it is just compiled. */
function compiled(name) {
  const filename = join(built, `${name}.cjs`);
  // The build writes nothing but ASCII, and latin1 is read fastest.
  const code = readFileSync(filename, 'latin1');
  // What Node makes of a module: a function of what it hands to one.
  return new Script(`(function(require,module,exports,__filename){${code}\n})`, {
    filename,
    cachedData: cacheOf(name),
  });
}

function cacheOf(name) {
  try {
    return readFileSync(join(built, `${name}.cache`));
  } catch {
    return undefined;
  }
}

/** What a bundle exports. */
function loaded(name, script = compiled(name)) {
  const own = { exports: {} };
  script.runInThisContext()(require, own, own.exports, join(built, `${name}.cjs`));
  return own.exports;
}

function start(words) {
  try {
    if (isServing(words)) loaded('server');
    else
      loaded('cli')
        .main(words)
        .then(status => {
          process.exitCode = status;
        });
  } catch (error) {
    if (error.code !== 'ENOENT' || !String(error.path).startsWith(built)) throw error;
    process.stderr.write('leastwise: the command is not built yet: run `npm run build` once\n');
    process.exitCode = 2;
  }
}

/** Whether an editor starts its server, with words that the server knows; any others the command looks at. */
function isServing([verb, ...words]) {
  if (verb !== 'serve' || !words.some(word => word === '--stdio' || word === '--node-ipc')) return false;
  return /^(?: --stdio| --node-ipc| --clientProcessId[= ]\d+)+$/.test(` ${words.join(' ')}`);
}

module.exports = { compiled, loaded };

if (require.main === module) start(process.argv.slice(2));
