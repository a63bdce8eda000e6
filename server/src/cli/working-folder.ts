/**
 * Where the command runs, for libraries that ask for it, also when that folder is gone: then Node throws, though whole
 * paths can be read all the same. By this name nothing is found and nothing can be written, as by any path from there.
 */
const GONE = '/proc/self/cwd';

/** To be called once in each thread, before anything asks where the command runs. */
export function settleWorkingFolder(): void {
  try {
    process.cwd();
  } catch {
    process.cwd = () => GONE;
  }
}
