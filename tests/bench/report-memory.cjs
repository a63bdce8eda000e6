// Loaded before a program: writes down the most memory it had resident when it ends.
const { writeFileSync } = require('node:fs');
const { isMainThread } = require('node:worker_threads');

if (isMainThread && process.env.MEMORY_REPORT) {
  process.on('exit', () => writeFileSync(process.env.MEMORY_REPORT, String(process.resourceUsage().maxRSS)));
}
