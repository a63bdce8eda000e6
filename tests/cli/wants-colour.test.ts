import { expect, it } from 'vitest';
import { wantsColour } from '../../server/src/cli/wants-colour.ts';

// The order is that of no-color.org (NO_COLOR, when not empty) and of the force-color convention.
it.each([
  [{}, true, true],
  [{}, false, false],
  [{ NO_COLOR: '1' }, true, false],
  [{ NO_COLOR: '' }, true, true],
  [{ FORCE_COLOR: '1' }, false, true],
  [{ FORCE_COLOR: '0' }, true, false],
  [{ FORCE_COLOR: 'false' }, true, false],
  [{ FORCE_COLOR: '' }, false, false],
  [{ NO_COLOR: '1', FORCE_COLOR: '1' }, true, false],
  [{ TERM: 'dumb' }, true, false],
  [{ CI: '1' }, false, false],
])('%j on a terminal: %s gives %s', (environment, terminal, wanted) => {
  expect(wantsColour(environment, terminal)).toBe(wanted);
});
