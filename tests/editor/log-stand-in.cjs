// Stands in for the part of the editor that writes its logs, which would have to be compiled: a line is a line.
const { appendFileSync, mkdirSync } = require('node:fs');
const { dirname } = require('node:path');

const LEVELS = ['trace', 'debug', 'info', 'warn', 'error', 'critical'];

exports.setFlushOn = () => {};
exports.setLevel = () => {};
exports.createRotatingLogger = async (_name, path) => logTo(path);
exports.createAsyncRotatingLogger = exports.createRotatingLogger;

function logTo(path) {
  let isPlain = false;
  mkdirSync(dirname(path), { recursive: true });
  const log = {
    getLevel: () => 0,
    setLevel() {},
    setPattern() {},
    clearFormatters() {
      isPlain = true;
    },
    flush() {},
    drop() {},
  };
  for (const level of LEVELS)
    log[level] = message => appendFileSync(path, isPlain ? message : `[${level}] ${message}\n`);
  return log;
}
