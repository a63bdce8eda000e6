// A further thread of a run over many notes: it loads the same bundle with the same code cache as the command does.
const { parentPort, workerData } = require('node:worker_threads');
const { loaded } = require('./leastwise.js');

loaded('cli')
  .noteThread()
  .then(noteThread => noteThread(parentPort, workerData));
