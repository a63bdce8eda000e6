import { describe, expect, it } from 'vitest';
import { withEdits } from '../../server/src/actions/settled-edits.ts';
import { checkNote } from '../../server/src/checks/check.ts';
import { actionOf, actionsOf } from '../support/actions-of.ts';

const VERNIER = [
  '> ```measurement hub',
  '> main scale: 1 mm = 1 MSD',
  '> vernier scale: 10 VSD = 9 MSD',
  '> closed: zeros coincide',
  '> MSR: 7 mm',
  '> n: 4',
  '> observed reading = 7.4 mm  # as read',
  '> ```',
  '',
  'Below.',
].join('\r\n');

const titles = (text: string, at: string): readonly string[] => actionsOf(text, at).map(({ title }) => title);

function made(text: string, at: string, title: string): string {
  return withEdits(text, actionOf(text, at, title).edits());
}

describe('the working', () => {
  it('is on offer three ways, and both ways of a vernier', () => {
    expect(titles(VERNIER, '7.4 mm')).toEqual([
      'Show the steps in this line',
      'Write out all steps of this block',
      'Insert the worked solution below the block',
      'Show the steps in this line, by the scales themselves',
      'Write out all steps of this block, by the scales themselves',
      'Insert the worked solution below the block, by the scales themselves',
    ]);
    expect(titles('```measurement\npitch: 1 mm\ncircular scale: 100 divisions\n```', 'pitch')).toEqual([
      'Write out all steps of this block',
      'Insert the worked solution below the block',
    ]);
    expect(titles(VERNIER, 'Below')).toEqual([]);
    expect(
      titles('```measurement\nLSR: 1 mm\n```', 'LSR').filter(title => /step|solution/.test(title)),
    ).toEqual([]);
  });

  // By hand: 7 mm + 4 × 0.1 mm = 7.4 mm; line 4 stands 4 × 0.9 mm = 3.6 mm right of the zero, at the mark of 11 mm.
  it('is written into the line', () => {
    expect(made(VERNIER, '7.4 mm', 'Show the steps in this line')).toContain(
      '> observed reading = MSR + n × LC = 7 mm + 4 × 0.1 mm = 7.4 mm  # as read\r\n',
    );
    expect(made(VERNIER, '7.4 mm', 'Show the steps in this line, by the scales themselves')).toContain(
      '> observed reading = 11 mm - 4 × 0.9 mm = 7.4 mm  # as read\r\n',
    );
  });

  it('is written as lines, of which none is found fault with', () => {
    const note = made(VERNIER, 'MSR', 'Write out all steps of this block');
    expect(note).toMatch(/\r\n> least count = .*\r\n/);
    expect(note).toMatch(/\r\n> corrected reading = .*= 7\.4 mm\r\n> ```\r\n/);
    expect(checkNote(note).findings).toEqual([]);
  });

  it('is on offer as lines only where one is left to write', () => {
    const action = 'Write out all steps of this block';
    expect(titles(made(VERNIER, 'MSR', action), 'MSR')).not.toContain(action);
    const ball = '```measurement\nm: 3.12 g\nv: 0.40 cm^3\ndensity = m/v';
    expect(titles(`${ball} = 7.8 g/cm^3\n\`\`\``, 'density')).not.toContain(action);
    expect(made(`${ball} = ?\n\`\`\``, 'density', action)).toContain('density = m/v = 7.8 g/cm^3\n');
  });

  it('is put below the block, and renewed once it is stale', () => {
    const worked = made(VERNIER, 'MSR', 'Insert the worked solution below the block');
    expect(worked).toMatch(/\r\n> ```\r\n>\r\n> <!-- working: hub [0-9a-f]{6} -->\r\n/);
    expect(checkNote(worked).findings).toEqual([]);
    expect(titles(worked, 'MSR: ')).not.toContain('Insert the worked solution below the block');
    const stale = worked.replace('n: 4', 'n: 5').replace('= 7.4 mm  #', '= 7.5 mm  #');
    expect(checkNote(stale).findings.map(({ rule }) => rule)).toEqual(['stale-working']);
    const action = actionOf(stale, '<!-- working', 'Renew the working');
    expect([action.kind, action.finding?.rule]).toEqual(['quickfix', 'stale-working']);
    const renewed = withEdits(stale, action.edits());
    expect(checkNote(renewed).findings).toEqual([]);
    expect(renewed).toContain('7.5');
  });

  it('is never written over where nobody can tell how far it reaches', () => {
    const worked = made(VERNIER, 'MSR', 'Insert the worked solution below the block');
    const endless = worked.replace('n: 4', 'n: 5').replace('<!-- end working -->', '');
    expect(titles(endless, '<!-- working')).toEqual([]);
  });
});
