import { createRequire } from 'node:module';
import { expect, test } from 'vitest';
import { LAUNCHER } from '../support/command.ts';

// V8 refuses a cache that was made by a process with other switches: the run of the build must not set any.
test('the command starts from what V8 compiled when it was built', () => {
  const { compiled } = createRequire(import.meta.url)(LAUNCHER);
  expect(compiled('cli').cachedDataRejected).toBe(false);
});
