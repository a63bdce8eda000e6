import { describe, expect, it } from 'vitest';
import { withEdits } from '../../server/src/actions/settled-edits.ts';
import { checkNote } from '../../server/src/checks/check.ts';
import { examineNote } from '../../server/src/checks/examine.ts';
import { noteSession } from '../../server/src/checks/note-session.ts';
import { DEFAULT_SETTINGS, type Settings } from '../../server/src/checks/settings.ts';
import { insertWorkingEdits } from '../../server/src/workings/insert-working.ts';
import { workingText } from '../../server/src/workings/working-text.ts';

function withSettings(settings: Partial<Settings>): Settings {
  return { ...DEFAULT_SETTINGS, ...settings };
}

/** What a check says of the lines of a block, in short. */
function saidOf(lines: readonly string[], settings: Partial<Settings> = {}): readonly string[] {
  const text = block(lines);
  const { findings } = checkNote(text, withSettings(settings));
  // What is followed through its edits says the same.
  expect(noteSession(withSettings(settings)).check(text).findings).toEqual(findings);
  return findings.map(
    ({ rule, severity, computed, waived }) =>
      `${severity} ${rule}${computed === null ? '' : ` ${computed}`}${waived === null ? '' : ' waived'}`,
  );
}

function block(lines: readonly string[]): string {
  return ['```measurement spoke-gauge', ...lines, '```', ''].join('\n');
}

const CALIPERS = ['main scale: 1 mm = 1 MSD', 'vernier scale: 10 VSD = 9 MSD'];

describe('rules', () => {
  const lines = [
    ...CALIPERS,
    'least count = 0.10 mm',
    'main scale reading: 24 mm',
    'coinciding division: 7',
    'observed reading = 24.8 mm',
    'waive: limit, never so long',
  ];

  it('are as grave as they are set, and what is off is not reported', () => {
    expect(saidOf(lines)).toEqual(['error wrong-value 24.7 mm', 'warning unused-waiver']);
    expect(saidOf(lines, { rules: { 'wrong-value': 'warning', 'unused-waiver': 'error' } })).toEqual([
      'warning wrong-value 24.7 mm',
      'error unused-waiver',
    ]);
    expect(saidOf(lines, { rules: { 'wrong-value': 'off' } })).toEqual(['warning unused-waiver']);
    expect(saidOf(lines, { rules: { 'unused-waiver': 'off' } })).toEqual(['error wrong-value 24.7 mm']);
  });

  it('that are off leave no waiver without a use', () => {
    expect(saidOf(lines, { rules: { limit: 'off' } })).toEqual(['error wrong-value 24.7 mm']);
    const waived = [...lines.slice(0, -1), 'waive: wrong-value, printed so'];
    expect(saidOf(waived)).toEqual(['error wrong-value 24.7 mm waived']);
    expect(saidOf(waived, { rules: { 'wrong-value': 'warning' } })).toEqual([
      'warning wrong-value 24.7 mm waived',
    ]);
    expect(saidOf(waived, { rules: { 'wrong-value': 'off' } })).toEqual([]);
  });
});

describe('errorRule', () => {
  // A reading carries one least count, or half of it: common practice, no source.
  const lines = [
    ...CALIPERS,
    'main scale reading: 24 mm',
    'coinciding division: 7',
    'absolute error of observed reading = 0.05 mm',
  ];

  it('holds where a block has none', () => {
    expect(saidOf(lines)).toEqual(['error wrong-value 0.10 mm']);
    expect(saidOf(lines, { errorRule: 'half the least count' })).toEqual([]);
  });

  it('gives way to what a block says, or the block that it uses', () => {
    const own = [...lines, 'error rule: least count'];
    expect(saidOf(own, { errorRule: 'half the least count' })).toEqual(['error wrong-value 0.10 mm']);
    const using = `${block([...CALIPERS, 'error rule: least count'])}
\`\`\`measurement nipple
uses: spoke-gauge
main scale reading: 24 mm
coinciding division: 7
absolute error of observed reading = 0.05 mm
\`\`\`
`;
    const settings = withSettings({ errorRule: 'half the least count' });
    expect(checkNote(using, settings).findings.map(({ computed }) => computed)).toEqual(['0.10 mm']);
  });

  it('is what a working belongs to, which grows stale with it', () => {
    const text = block(lines.slice(0, -1));
    const working = withEdits(text, insertWorkingEdits(examineNote(text)!, 0));
    expect(checkNote(working).findings).toEqual([]);
    expect(
      checkNote(working, withSettings({ errorRule: 'rectangular' })).findings.map(({ rule }) => rule),
    ).toEqual(['stale-working']);
  });
});

describe('rounding', () => {
  // (6.2 + 6.3)/2 is 6.25 exactly: 6.3 away from zero, 6.2 to even.
  const list = 'T: 6.2 s, 6.3 s';

  it('says which way a half may go', () => {
    const away = [list, 'mean of T = 6.3 s'];
    const even = [list, 'mean of T = 6.2 s'];
    expect(saidOf(away)).toEqual([]);
    expect(saidOf(even)).toEqual([]);
    expect(saidOf(away, { rounding: 'away-from-zero' })).toEqual([]);
    expect(saidOf(even, { rounding: 'away-from-zero' })).toEqual(['error wrong-value 6.3 s']);
    expect(saidOf(away, { rounding: 'to-even' })).toEqual(['error wrong-value 6.2 s']);
    expect(saidOf(even, { rounding: 'to-even' })).toEqual([]);
  });

  it('is told where it is why a value is wrong', () => {
    const { findings } = checkNote(block([list, 'mean of T = 6.3 s']), withSettings({ rounding: 'to-even' }));
    expect(findings[0]!.message).toBe(
      'the mean of T is stated as 6.3 s, but 6.2 s is right: a half goes to the even digit here',
    );
  });

  it('says so for values below nought as well, and leaves others alone', () => {
    const negative = ['T: -6.2 s, -6.3 s', 'mean of T = -6.3 s'];
    expect(saidOf(negative, { rounding: 'away-from-zero' })).toEqual([]);
    expect(saidOf(negative, { rounding: 'to-even' })).toEqual(['error wrong-value -6.2 s']);
    for (const rounding of ['either', 'away-from-zero', 'to-even'] as const)
      expect(saidOf(['T: 6.2 s, 6.4 s, 6.2 s', 'mean of T = 6.3 s'], { rounding })).toEqual([]);
  });

  it('is how workings round', () => {
    for (const [rounding, shown] of [
      ['away-from-zero', '6.3 s'],
      ['to-even', '6.2 s'],
    ] as const) {
      const note = examineNote(block([list, `mean of T = ${shown}`]), withSettings({ rounding }))!;
      expect(workingText(note, 0, 'text', { way: null })).toContain(`≈ ${shown}`);
    }
  });
});

describe('way', () => {
  it('is how a vernier is read where nobody asks for another', () => {
    const text = block([...CALIPERS, 'main scale reading: 24 mm', 'coinciding division: 7']);
    const usual = examineNote(text)!;
    const scales = examineNote(text, withSettings({ way: 'scales' }))!;
    const asked = workingText(usual, 0, 'text', { way: 'scales' });
    expect(workingText(usual, 0, 'text', { way: null })).not.toBe(asked);
    expect(workingText(scales, 0, 'text', { way: null })).toBe(asked);
    expect(workingText(scales, 0, 'text', { way: 'least-count' })).toBe(
      workingText(usual, 0, 'text', { way: null }),
    );
  });
});
