import { existsSync, lstatSync, readdirSync, readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folderOf, leastwise } from '../support/command.ts';
import { RIGHT_NOTE } from '../support/workshop-notes.ts';

const UNSAFE = `\`\`\`measurement ../../out\nmain scale: 1 mm = 1 MSD\nvernier scale: 10 VSD = 9 MSD\nMSR: 7 mm\nn: 3\n\`\`\`\n`;
const STUDENT = '{ "student": true }';

describe('drawing', () => {
  it('writes a file for each block, named by it, and the same bytes again', () => {
    const cwd = folderOf({ 'q.md': RIGHT_NOTE });
    expect(leastwise(['draw', 'q.md', '--out', 'figures'], { cwd })).toMatchObject({
      status: 0,
      stdout: 'figures/axle-sleeve.svg\n',
      stderr: '',
    });
    const svg = readFileSync(join(cwd, 'figures/axle-sleeve.svg'), 'utf8');
    expect(svg).toMatch(/^<svg [\s\S]*2\.484 cm[\s\S]*<\/svg>\n$/);
    leastwise(['draw', 'q.md#axle-sleeve', '--out', 'again'], { cwd });
    expect(readFileSync(join(cwd, 'again/axle-sleeve.svg'), 'utf8')).toBe(svg);
    expect(readdirSync(join(cwd, 'figures'))).toEqual(['axle-sleeve.svg']);
  });

  it('gives nothing away in the style of a question', () => {
    const cwd = folderOf({ 'q.md': RIGHT_NOTE, 'leastwise.config.json': STUDENT });
    expect(leastwise(['draw', 'q.md', '--out', '.'], { cwd })).toMatchObject({ status: 1, stdout: '' });
    expect(leastwise(['draw', 'q.md', '--style', 'question', '--out', '.'], { cwd }).status).toBe(0);
    const svg = readFileSync(join(cwd, 'axle-sleeve-question.svg'), 'utf8');
    expect(svg).not.toMatch(/2\.484|2\.478|in line|data-/);
  });

  it('never writes outside the folder', () => {
    const cwd = folderOf({ 'in/q.md': UNSAFE, 'in/out/': '', 'kept.svg': 'kept' });
    symlinkSync(join(cwd, 'kept.svg'), join(cwd, 'in/out/out.svg'));
    const run = leastwise(['draw', 'in/q.md', '--out', 'in/out'], { cwd });
    expect(run).toMatchObject({ status: 0, stdout: 'in/out/out.svg\n' });
    expect(readFileSync(join(cwd, 'kept.svg'), 'utf8')).toBe('kept');
    expect(lstatSync(join(cwd, 'in/out/out.svg')).isSymbolicLink()).toBe(false);
    expect(readdirSync(cwd).sort()).toEqual(['in', 'kept.svg']);
  });

  it('puts image lines into the note, once, and the files beside it', () => {
    const cwd = folderOf({ 'q 1.md': RIGHT_NOTE });
    const draw = () => leastwise(['draw', 'q 1.md', '--insert'], { cwd });
    expect(draw()).toMatchObject({ status: 0, stdout: 'q-1-axle-sleeve.svg\n' });
    const text = readFileSync(join(cwd, 'q 1.md'), 'utf8');
    expect(text).toMatch(
      /```\n\n<!-- figure: axle-sleeve [0-9a-f]{6} -->\n\n!\[[^\n]+\]\(q-1-axle-sleeve\.svg\)\n\n<!-- end figure -->\n/,
    );
    expect(draw().status).toBe(0);
    expect(readFileSync(join(cwd, 'q 1.md'), 'utf8')).toBe(text);
    expect(leastwise(['check', 'q 1.md'], { cwd }).status).toBe(0);
  });

  it('keeps the figures of two notes apart that show them from one folder', () => {
    const other = RIGHT_NOTE.replace('coinciding division: 17', 'coinciding division: 4');
    const cwd = folderOf({ 'one.md': RIGHT_NOTE, 'two.md': other });
    const draw = (note: string) => leastwise(['draw', note, '--insert', '--out', 'figures'], { cwd }).stdout;
    expect(draw('one.md') + draw('two.md')).toBe(
      'figures/one-axle-sleeve.svg\nfigures/two-axle-sleeve.svg\n',
    );
    expect(readFileSync(join(cwd, 'figures/one-axle-sleeve.svg'), 'utf8')).toContain('line 17 in line');
    expect(readFileSync(join(cwd, 'one.md'), 'utf8')).toContain('](figures/one-axle-sleeve.svg)');
  });

  it('says of scales in letters that a drawing needs numbers', () => {
    const letters = (read: string) =>
      `\`\`\`measurement scale\nw: any length\nmain scale: 1 MSD = w\nvernier scale: 10 VSD = 9 MSD\n${read}\`\`\`\n`;
    const cwd = folderOf({
      'read.md': letters('MSR: 3 MSD\nn: 4\n'),
      'both.md': `${RIGHT_NOTE}\n${letters('')}`,
    });
    const read = leastwise(['draw', 'read.md', '--out', 'o'], { cwd });
    expect(read).toMatchObject({ status: 1, stdout: '' });
    expect(read.stderr).toMatch(
      /^[^\n]*scale: it cannot be drawn, because its scales are in letters, and a drawing needs numbers\n$/,
    );
    const both = leastwise(['draw', 'both.md', '--out', 'o'], { cwd });
    expect(both).toMatchObject({ status: 0, stdout: 'o/axle-sleeve.svg\n' });
    expect(both.stderr).toContain('its scales are in letters');
  });

  it('says what it cannot do', () => {
    const cwd = folderOf({
      'q.md': RIGHT_NOTE,
      'half.md':
        '```measurement half\nmain scale: 1 mm = 1 MSD\nvernier scale: 10 VSD = 9 MSD\nMSR: 7 mm\n```\n',
      file: '',
    });
    expect(leastwise(['draw', 'q.md'], { cwd })).toMatchObject({ status: 2 });
    expect(leastwise(['draw', 'q.md#rim', '--out', 'o'], { cwd })).toMatchObject({ status: 2 });
    expect(leastwise(['draw', '-', '--insert'], { cwd, input: RIGHT_NOTE })).toMatchObject({ status: 2 });
    expect(leastwise(['draw', 'q.md', '--out', 'file'], { cwd })).toMatchObject({ status: 2 });
    const half = leastwise(['draw', 'half.md', '--out', 'o'], { cwd });
    expect(half).toMatchObject({ status: 1, stdout: '' });
    expect(half.stderr).toContain('half: it cannot be drawn');
    expect(existsSync(join(cwd, 'o'))).toBe(false);
  });
});
