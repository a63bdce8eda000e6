import { describe, expect, it } from 'vitest';
import { fixAllEdits } from '../../server/src/actions/fix-all.ts';
import { withEdits } from '../../server/src/actions/settled-edits.ts';
import { HOSTILE } from '../properties/generators/hostile-note.ts';
import { offersOf } from '../support/actions-of.ts';

describe('actions on text that nobody writes', () => {
  it.each(Object.values(HOSTILE).flatMap(notes => Object.entries(notes)))('%s', (_, text) => {
    const offers = offersOf(text);
    const lines = [0, text.indexOf('\n') + 1, Math.floor(text.length / 2), text.lastIndexOf('\n')];
    for (const start of lines) {
      for (const action of offers({ start, end: start })) withEdits(text, action.edits());
    }
    expect(() => fixAllEdits(text)).not.toThrow();
  });
});
