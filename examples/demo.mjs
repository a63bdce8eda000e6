// Shows the command at work: the examples agree, and the careless ones are found out.
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';

const root = join(import.meta.dirname, '..');

/** Runs a script of ours with its output shown; gives its exit status. */
function run(script, ...words) {
  return spawnSync(process.execPath, [join(root, script), ...words], { cwd: root, stdio: 'inherit' }).status;
}

function show(expected, ...words) {
  console.log(`\n$ leastwise ${words.map(word => (/[*\s]/.test(word) ? `'${word}'` : word)).join(' ')}`);
  const status = run('server/bin/leastwise.js', ...words);
  if (status === expected) return;
  console.error(`demo: exit status ${expected} was expected here, and ${status} came`);
  process.exit(1);
}

if (run('server/build.mjs') !== 0) process.exit(1);

console.log('Notes of the workshop in which everything agrees:');
show(0, 'check', 'examples/*.md');

console.log('\nNotes that an apprentice wrote in a hurry:');
show(1, 'check', 'examples/careless');

console.log('\nWhat one of the findings means:');
show(0, 'explain', 'wrong-value');
