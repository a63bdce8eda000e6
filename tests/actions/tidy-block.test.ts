import { describe, expect, it } from 'vitest';
import { withEdits } from '../../server/src/actions/settled-edits.ts';
import { tidyEdits } from '../../server/src/actions/tidy-block.ts';
import { checkedNote } from '../../server/src/checks/check.ts';
import { examineNote } from '../../server/src/checks/examine.ts';
import { DEFAULT_SETTINGS, type Settings } from '../../server/src/checks/settings.ts';
import { actionOf, actionsOf } from '../support/actions-of.ts';

const NOTE = `\`\`\`measurement nut
main scale = 1 MSD = 1 mm
MSR=12 mm
\`\`\`

> \`\`\`measurement bolt
> uses: nut
> MSR=14 mm # seen
> least count=1*2 mm
> \`\`\`
`;

function tidied(text: string, settings: Settings = DEFAULT_SETTINGS): string {
  const note = examineNote(text, settings)!;
  return withEdits(text, tidyEdits({ text, note, checked: checkedNote(note) }, null));
}

describe('a tidied block', () => {
  it('is the one where the cursor stands', () => {
    const made = withEdits(NOTE, actionOf(NOTE, '14 mm', 'Tidy this block').edits());
    expect(made).toBe(NOTE.replace('MSR=14', 'MSR: 14').replace('=1*2', ' = 1 × 2'));
    expect(actionsOf(made, '14 mm').map(({ title }) => title)).not.toContain('Tidy this block');
    expect(actionsOf(made, '12 mm').map(({ title }) => title)).toContain('Tidy this block');
  });

  it('is every one of a note that is formatted', () => {
    const made = tidied(NOTE);
    expect(made).toContain('main scale: 1 MSD = 1 mm\nMSR: 12 mm\n');
    expect(made).toContain('> MSR: 14 mm # seen\n> least count = 1 × 2 mm\n');
    expect(tidied(made)).toBe(made);
  });

  it('is the same where a student writes, and where a rule is off', () => {
    for (const settings of [
      { ...DEFAULT_SETTINGS, student: true },
      { ...DEFAULT_SETTINGS, rules: { 'not-plain': 'off' as const } },
    ])
      expect(tidied(NOTE, settings)).toBe(tidied(NOTE));
  });
});
