import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { checkNote } from '../../server/src/checks/check.ts';
import { examineNote } from '../../server/src/checks/examine.ts';
import { renderedNote } from '../../server/src/cli/rendered-note.ts';
import { folderOf, leastwise } from '../support/command.ts';
import { PROJECT_ROOT, projectText } from '../support/project-files.ts';
import { RIGHT_NOTE } from '../support/workshop-notes.ts';

const NAMES = readdirSync(`${PROJECT_ROOT}/examples`).filter(name => name.endsWith('.md'));

function rendered(text: string, question: boolean) {
  return renderedNote(examineNote(text)!, { question, before: 'note', folder: 'figures', back: '' });
}

describe('a note to be published', () => {
  it.each(NAMES)('%s has no block left, and every image has its file', name => {
    const { text, figures } = rendered(projectText(`examples/${name}`), false);
    expect(text).not.toMatch(/^[ >]*[`~]{3,} *\{?\.?measurement/m);
    const links = [...text.matchAll(/!\[[^\n]*?\]\(figures\/([^)]+)\)/g)].map(([, file]) => file);
    expect(links).toEqual(figures.map(({ file }) => file));
    expect(new Set(links).size).toBe(links.length);
    for (const { svg } of figures) expect(svg).toMatch(/^<svg [\s\S]*<\/svg>\n$/);
    expect(text.split('$$').length % 2).toBe(1);
    expect(rendered(projectText(`examples/${name}`), false)).toEqual({ text, figures, trouble: null });
  });

  it.each(NAMES)('%s as a question gives nothing away', name => {
    const note = projectText(`examples/${name}`);
    const { text, figures } = rendered(note, true);
    const blocks = text + figures.map(({ svg }) => svg).join('');
    expect(blocks).not.toMatch(/<!-- (?:end )?working|<!-- figure:|✓|data-|in line with/);
    // What is computed stands nowhere, but where the same words were recorded or written in the prose.
    const said = note.replace(/^(?![^\n]*:[^=\n]*$).*[=|?].*$/gm, '');
    const told = checkNote(note).blocks.flatMap(({ quantities }) =>
      quantities
        .filter(({ source, shown }) => source === 'computed' && /\d\.\d{2}/.test(shown))
        .map(({ shown }) => shown),
    );
    expect(told.filter(shown => text.includes(shown) && !said.includes(shown))).toEqual([]);
  });

  it('stands where the block stood, in a quotation too', () => {
    const quoted = `Before\n${RIGHT_NOTE.replace(/^(?=.)/gm, '> ').replace(/^$/gm, '>')}`;
    const { text } = rendered(quoted, false);
    expect(text).toMatch(/\n> \*\*axle-sleeve: vernier calipers\*\*\n>\n> \| quantity \| value \|\n/);
    expect(text).toMatch(/\n> !\[/);
  });

  it('asks for what the prose claims', () => {
    const note = `${RIGHT_NOTE}\nIt measures \`corrected reading of axle-sleeve = 2.478 cm\` now.\n`;
    expect(rendered(note, true).text).toContain('`corrected reading of axle-sleeve = ?` now.');
    expect(rendered(note, false).text).toContain('`corrected reading of axle-sleeve = 2.478 cm`');
  });

  it('asks for what the prose claims of a block that is not there as well', () => {
    const note = `${RIGHT_NOTE}\nIt measures \`corrected reading of axel-sleeve = 2.45 cm + 0.028 cm ≈ 2.478 cm\`, see \`x = 2\`.\n`;
    expect(rendered(note, true).text).toContain('`corrected reading of axel-sleeve = ?`, see `x = 2`.');
    expect(rendered(note, false).text).toContain('2.478 cm');
  });

  it('is refused where nobody can tell how far a working reaches', () => {
    const note = `${RIGHT_NOTE}\n<!-- working: axle-sleeve 3f2a9c -->\n\n2.478 cm\n`;
    expect(rendered(note, true)).toMatchObject({ text: '', figures: [] });
    expect(rendered(note, true).trouble).toContain('where one of its workings ends');
  });
});

describe('the command that renders', () => {
  let out = '';
  beforeAll(() => {
    out = mkdtempSync(join(tmpdir(), 'leastwise-'));
  });
  afterAll(() => rmSync(out, { recursive: true, force: true }));

  it('writes the note, and its figures into a folder', () => {
    const cwd = folderOf({ 'q.md': RIGHT_NOTE });
    expect(leastwise(['render', 'q.md', '--out', out], { cwd })).toMatchObject({
      status: 0,
      stdout: `${join(out, 'q.md')}\n`,
      stderr: '',
    });
    expect(existsSync(join(out, 'figures/q-axle-sleeve.svg'))).toBe(true);
    expect(readFileSync(join(out, 'q.md'), 'utf8')).toContain('(figures/q-axle-sleeve.svg)');
  });

  it('never writes over the note itself, and publishes no mistake unsaid', () => {
    const cwd = folderOf({ 'q.md': RIGHT_NOTE, 'wrong.md': RIGHT_NOTE.replace('= 2.484 cm', '= 2.494 cm') });
    expect(leastwise(['render', 'q.md', '--out', '.'], { cwd })).toMatchObject({ status: 2, stdout: '' });
    expect(readFileSync(join(cwd, 'q.md'), 'utf8')).toBe(RIGHT_NOTE);
    const wrong = leastwise(['render', 'wrong.md', '--out', out], { cwd });
    expect(wrong.status).toBe(1);
    expect(wrong.stderr).toContain('wrong.md has');
  });

  it('renders only the question of what students work out', () => {
    const cwd = folderOf({ 'q.md': RIGHT_NOTE, 'leastwise.config.json': '{ "student": true }' });
    expect(leastwise(['render', 'q.md', '--out', 'o'], { cwd })).toMatchObject({ status: 1, stdout: '' });
    expect(existsSync(join(cwd, 'o'))).toBe(false);
    expect(leastwise(['render', 'q.md', '--out', 'o', '--question'], { cwd }).status).toBe(0);
    expect(readFileSync(join(cwd, 'o/q.md'), 'utf8')).not.toMatch(/2\.484|2\.478/);
  });

  it('keeps the figures of notes apart whose long names begin alike', () => {
    const name = 'bicycle-and-clock-repair-workshop-solutions-of-week';
    const other = RIGHT_NOTE.replace('coinciding division: 17', 'coinciding division: 4');
    const cwd = folderOf({ [`${name}-1.md`]: RIGHT_NOTE, [`${name}-2.md`]: other });
    for (const week of [1, 2]) leastwise(['render', `${name}-${week}.md`, '--out', 'out'], { cwd });
    const figures = readdirSync(join(cwd, 'out/figures')).sort();
    expect(figures).toHaveLength(2);
    for (const figure of figures)
      expect(figure).toMatch(/^bicycle-and-clock-repair-[a-z0-9-]*-axle-sleeve\.svg$/);
  });
});
