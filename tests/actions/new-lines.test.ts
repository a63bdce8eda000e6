import { describe, expect, it } from 'vitest';
import { withEdits } from '../../server/src/actions/settled-edits.ts';
import { checkNote } from '../../server/src/checks/check.ts';
import { actionOf, actionsOf } from '../support/actions-of.ts';

function withAction(text: string, at: string, title: string): string {
  return withEdits(text, actionOf(text, at, title).edits());
}

describe('what is missing', () => {
  const SCREW = ['```measurement ball', 'circular scale: 50 divisions', '', 'pitch = ?', '```'];

  it('is put below the scales, to be written over', () => {
    const made = withAction(SCREW.join('\n'), '?', 'Record pitch: …');
    expect(made.split('\n')).toEqual([...SCREW.slice(0, 2), 'pitch: …', ...SCREW.slice(2)]);
    expect(checkNote(made).findings.map(({ rule }) => rule)).toEqual(['unreadable-line']);
  });

  it('begins as the lines of its block do, and ends as they do', () => {
    const quoted = SCREW.map(line => `> - ${line}`.replace(/^> - (?!```m)/, '>   ')).join('\r\n');
    const made = withAction(quoted, '?', 'Record pitch: …');
    expect(made).toContain('> - ```measurement ball\r\n>   circular scale: 50 divisions\r\n>   pitch: …\r\n');
    expect(made.replace(/\r\n/g, '')).not.toMatch(/[\r\n]/);
  });

  it('mends the finding where only the zero check is missing', () => {
    const text = [
      '```measurement',
      'main scale: 1 mm = 1 MSD',
      'vernier scale: 10 VSD = 9 MSD',
      'MSR: 7 mm',
      'n: 4',
      'corrected reading = 7.4 mm',
      '```',
    ].join('\n');
    const action = actionOf(text, '7.4 mm', 'Record closed: zeros coincide');
    expect([action.kind, action.isSure]).toEqual(['quickfix', false]);
    const made = withEdits(text, action.edits());
    expect(made.split('\n')[3]).toBe('closed: zeros coincide');
    expect(checkNote(made).findings).toEqual([]);
  });

  it('is no line of its own where the readings stand in a table', () => {
    const text =
      '```measurement\nmain scale: 1 mm = 1 MSD\nvernier scale: 10 VSD = 9 MSD\n| MSR | observed reading |\n| 7 mm | 7.4 mm |\n```';
    expect(actionsOf(text, '7.4 mm').filter(({ title }) => title.startsWith('Record coinciding'))).toEqual(
      [],
    );
  });

  it('is the first line of a block without any scale, also in a fence that nothing closes', () => {
    expect(withAction('~~~measurement\nrho = m / 2 cm^3', 'm / ', 'Record m: …')).toBe(
      '~~~measurement\nm: …\nrho = m / 2 cm^3',
    );
    expect(withAction('~~~measurement\nfind: least count', 'find', 'Record least count: …')).toBe(
      '~~~measurement\nleast count: …\nfind: least count',
    );
  });
});

describe('a waiver', () => {
  const WRONG = ['```measurement', 'pitch: 1 mm', 'circular scale: 100 divisions', 'LSR: 3 mm', 'CSR: 4'];
  const WAIVE = 'Waive wrong-value in this block, for a reason that you give';

  it('stands above the line and waits for its reason', () => {
    const text = [...WRONG, 'observed reading = 3.05 mm', '```'].join('\n');
    const made = withAction(text, '3.05', WAIVE);
    expect(made.split('\n')[5]).toBe('waive: wrong-value, ');
    expect(checkNote(made).findings.map(({ rule }) => rule)).toEqual(['unreadable-line', 'wrong-value']);
    const reasoned = made.replace('wrong-value, ', 'wrong-value, printed so on the old sheet');
    expect(checkNote(reasoned).findings.map(({ waived }) => waived)).toEqual(['printed so on the old sheet']);
    expect(actionsOf(reasoned, '3.05').filter(({ title }) => title.startsWith('Waive'))).toEqual([]);
  });

  it('does not part a table, nor a claim in several lines', () => {
    const table = [...WRONG.slice(0, 3), '| LSR | CSR | observed reading |', '| 3 mm | 4 | 3.05 mm |', '```'];
    expect(withAction(table.join('\n'), '3.05', WAIVE).split('\n')[3]).toBe('waive: wrong-value, ');
    const lines = [...WRONG, 'observed reading', '  = 3.05 mm', '```'];
    const chain = [...WRONG, 'observed reading = 3 mm + 4 × 0.01 mm', '  = 3.05 mm', '```'];
    expect(withAction(chain.join('\n'), '3.05', WAIVE).split('\n')[5]).toBe('waive: wrong-value, ');
    expect(checkNote(lines.join('\n')).findings.length).toBeGreaterThan(0);
  });

  it('that waives nothing is taken out with its line', () => {
    const text = ['> ```measurement', '> pitch: 1 mm', '> waive: limit, so it is', '> ```'].join('\r\n');
    expect(withAction(text, 'waive', 'Take the waiver out')).toBe(
      '> ```measurement\r\n> pitch: 1 mm\r\n> ```',
    );
  });
});

describe('a question mark', () => {
  it('gets the value in the unit of its line, of its column', () => {
    const text = [
      '```measurement',
      'main scale: 1 mm = 1 MSD',
      'vernier scale: 10 VSD = 9 MSD',
      'least count = 0.1 cm - 0.09 cm = ?',
      '| MSR | n | observed reading (cm) |',
      '| 7 mm | 4 | ? |',
      '```',
    ].join('\n');
    const made = withAction(text, 'least count', 'Answer every question mark of this block');
    expect(made).toContain('= 0.1 cm - 0.09 cm = 0.01 cm\n');
    expect(made).toContain('| 7 mm | 4 | 0.74 |\n');
    expect(checkNote(made).findings).toEqual([]);
    expect(withAction(text, '? |', 'Write 0.74 for the question mark')).toContain('| 0.74 |');
  });
});
