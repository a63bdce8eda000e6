import { describe, expect, it } from 'vitest';
import { checkNote } from '../../server/src/checks/check.ts';
import { SLIPS } from '../../server/src/engine/slips/all.ts';
import { expectMarkedNote } from '../support/marked-note.ts';
import { projectFiles, projectText } from '../support/project-files.ts';

describe('every slip', () => {
  const notes = projectFiles().filter(path => /^tests\/slips\/.*\.md$/.test(path));

  it('has a note, and every note a slip', () => {
    expect(notes).toEqual(SLIPS.map(slip => `tests/slips/${slip.name}.md`).sort());
  });

  it.each(SLIPS.map(slip => slip.name))('%s is found in its note, in two settings or more', name => {
    const text = projectText(`tests/slips/${name}.md`);
    expectMarkedNote(text, checkNote);
    const named = checkNote(text).findings.filter(finding => finding.slip === name);
    expect(named.length).toBeGreaterThanOrEqual(2);
  });

  it.each(SLIPS.map(slip => [slip.name, slip] as const))('%s is shown by its example', (name, slip) => {
    expectMarkedNote(slip.example, checkNote);
    expect(checkNote(slip.example).findings.map(finding => finding.slip)).toEqual([name]);
  });
});
