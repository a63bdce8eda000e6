// A further thread of a run over many notes: it loads the same bundle as the command does. In the middle of a long run V8
// has other switches and takes no code cache, and the thread compiles what it needs.
const { parentPort, workerData } = require('node:worker_threads');
const { loaded } = require('./leastwise.js');

loaded('cli')
  .noteThread()
  .then(noteThread => noteThread(parentPort, workerData));
