import { randomBytes } from 'node:crypto';
import { fstatSync } from 'node:fs';
import type { Output } from '../output.ts';

/**
 * Where diffs go. They hold the notes' lines byte for byte, and GitHub takes a line that begins with two colons, blanks
 * left out, for a command of whoever prints it. There, unless a file takes the diffs, commands are stopped before the
 * first one and taken again behind the last by a word that nobody can guess, as GitHub's documentation of workflow
 * commands has it.
 */
export function diffOutput(output: Output, environment: NodeJS.ProcessEnv): Output {
  if (environment.GITHUB_ACTIONS !== 'true' || isFile(STDOUT)) return output;
  const word = randomBytes(16).toString('hex');
  let isStopped = false;
  return {
    write: text => {
      const opening = isStopped ? '' : `::stop-commands::${word}\n`;
      isStopped = true;
      return output.write(opening + text);
    },
    end: async () => {
      if (isStopped) await output.write(`::${word}::\n`);
      return output.end();
    },
  };
}

const STDOUT = 1;

function isFile(descriptor: number): boolean {
  try {
    return fstatSync(descriptor).isFile();
  } catch {
    return false;
  }
}
