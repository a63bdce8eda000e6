import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createContext, runInContext } from 'node:vm';
import { build } from 'esbuild';
import { afterAll, describe, expect, it } from 'vitest';
import { check, checkNote, DEFAULT_SETTINGS, drawNote } from '../../server/src/index.ts';
import { buildIfStale } from '../support/build-if-stale.ts';
import { leastwise } from '../support/command.ts';
import { PROJECT_ROOT, projectText } from '../support/project-files.ts';
import { NOTES_TO_MEND, noteText } from '../support/typed-notes.ts';
import { WAIVING_NOTE, WRONG_NOTE } from '../support/workshop-notes.ts';

buildIfStale();

/** A program's folder with the package in it, as an installation lays it down. */
const consumer = mkdtempSync(join(tmpdir(), 'leastwise-consumer-'));
const installed = join(consumer, 'node_modules/leastwise');
afterAll(() => rmSync(consumer, { recursive: true, force: true }));

const packed = JSON.parse(
  execFileSync('npm', ['pack', '--json', '--ignore-scripts', '--pack-destination', consumer], {
    cwd: PROJECT_ROOT,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'ignore'],
  }),
)[0] as { readonly filename: string; readonly files: readonly { readonly path: string }[] };
mkdirSync(installed, { recursive: true });
execFileSync('tar', ['xzf', join(consumer, packed.filename), '-C', installed, '--strip-components=1']);
writeFileSync(join(consumer, 'package.json'), '{ "type": "module" }');

const EXAMPLE = projectText('examples/as-a-library.mjs');

describe('the package', () => {
  const paths = packed.files.map(({ path }) => path);

  it('holds all that it exports, and no sources', () => {
    const manifest = JSON.parse(projectText('package.json'));
    const named = [...Object.values(manifest.exports), ...Object.values(manifest.bin)].flatMap(target =>
      typeof target === 'string' ? [target] : Object.values(target as Record<string, string>),
    );
    expect(named.length).toBeGreaterThan(4);
    expect(named.filter(target => !paths.includes(target.replace('./', '')))).toEqual([]);
    expect(paths).toEqual(
      expect.arrayContaining(['README.md', 'LICENSE', 'server/reference/rules/wrong-value.md']),
    );
    expect(paths.filter(path => /^(?:tests|client|node_modules|server\/src)\//.test(path))).toEqual([]);
  });

  it('brings a command that runs', () => {
    const run = execFileSync(
      process.execPath,
      [join(installed, 'server/bin/leastwise.js'), 'explain', 'vernier calipers'],
      {
        cwd: consumer,
        encoding: 'utf8',
      },
    );
    expect(run).toContain('vernier');
  });

  it('has the schema of the report under its name', () => {
    const script = `console.log(import.meta.resolve('leastwise/report.schema.json'))`;
    const found = execFileSync(process.execPath, ['--input-type=module', '-e', script], {
      cwd: consumer,
      encoding: 'utf8',
    });
    expect(readFileSync(new URL(found.trim()), 'utf8')).toBe(
      projectText('server/schema/leastwise.report.schema.json'),
    );
  });
});

describe('the example', () => {
  it('prints what it says', () => {
    writeFileSync(join(consumer, 'example.mjs'), EXAMPLE);
    const printed = execFileSync(process.execPath, ['example.mjs'], { cwd: consumer, encoding: 'utf8' });
    expect(printed.split('\n')).toEqual([
      '9:42 the observed reading is stated as 27.02 mm, but 27.20 mm is right: 0.02 mm stands where 0.2 mm belongs; 1 cm is 10 mm, so bring both into one unit (or: two neighbouring digits changed places)',
      'main scale division: 0.1 cm',
      'vernier scale division: 0.095 cm',
      'least count: 0.005 cm',
      'main scale reading: 27.00 mm',
      'coinciding division: 4',
      'vernier scale reading: 0.20 mm',
      'observed reading: 27.20 mm',
      'errors: 1',
      '27.02 mm -> 27.20 mm',
      '',
    ]);
  });
});

describe('README.md', () => {
  it('has the example as it runs here', () => {
    expect(projectText('README.md')).toContain(`\`\`\`js\n${EXAMPLE}\`\`\``);
  });
});

describe('the types', () => {
  it('are those that the sources give now: `npm run generate`', async () => {
    const generator = join(PROJECT_ROOT, 'server/library-types.mjs');
    const { libraryTypes } = await import(generator);
    expect(projectText('server/types/index.d.mts')).toBe(libraryTypes(PROJECT_ROOT));
  });

  const PROGRAM = `
import { check, checkNote, DEFAULT_SETTINGS, drawNote, type CheckResult, type RuleName } from 'leastwise';
const result: CheckResult = check('text', { errorRule: 'half the least count', rules: { 'wrong-value': 'warning' }, waived: true });
const places: number[] = result.findings.map(finding => finding.start + finding.line + finding.endColumn);
const rules: RuleName[] = result.findings.map(finding => finding.rule);
const shown: string[] = result.blocks.flatMap(block => block.quantities.map(quantity => quantity.shown));
const texts: string[] = result.findings.flatMap(({ fixes }) => fixes.flatMap(({ edits }) => edits.map(edit => edit.newText)));
const errors: number = result.summary.errors;
const figures: string[] = drawNote('text', 'worked').map(({ figure }) => figure.svg);
const spans: number[] = checkNote('text', DEFAULT_SETTINGS).findings.map(({ span }) => span.start);
// @ts-expect-error: a text is wanted
check(1);
// @ts-expect-error: no such rule
check('text', { rules: { 'no-such-rule': 'off' } });
// @ts-expect-error: results are not to be changed
result.findings[0].line = 1;
export { errors, figures, places, rules, shown, spans, texts };
`;

  it.each([
    ['node16', 'node16'],
    ['bundler', 'preserve'],
  ])('are whole by themselves for a program that resolves modules by %s', (moduleResolution, module) => {
    const folder = join(consumer, moduleResolution);
    mkdirSync(folder, { recursive: true });
    writeFileSync(join(folder, 'program.mts'), PROGRAM);
    const compilerOptions = {
      ...{ module, moduleResolution, target: 'es2022', lib: ['es2022'], types: [] },
      ...{ strict: true, noEmit: true, skipLibCheck: false, exactOptionalPropertyTypes: true },
    };
    writeFileSync(join(folder, 'tsconfig.json'), JSON.stringify({ compilerOptions, files: ['program.mts'] }));
    const compiler = join(PROJECT_ROOT, 'node_modules/typescript/bin/tsc');
    expect(() =>
      execFileSync(process.execPath, [compiler, '-p', folder], {
        encoding: 'utf8',
        stdio: ['ignore', 'pipe', 'inherit'],
      }),
    ).not.toThrow();
  });
});

describe('the library', () => {
  it('needs nothing of Node and nothing of a page: it runs in a bare context of the language', async () => {
    // Only what ECMAScript itself gives is there: no process, no window, no console, no text encoder.
    const { outputFiles, metafile } = await build({
      ...{
        entryPoints: [join(installed, 'server/dist/index.mjs')],
        bundle: true,
        write: false,
        metafile: true,
      },
      ...{ format: 'iife', globalName: 'library', platform: 'neutral', logLevel: 'silent' },
    });
    expect(Object.values(metafile.outputs).flatMap(({ imports }) => imports)).toEqual([]);
    const context = createContext({});
    runInContext(outputFiles[0]!.text, context);
    for (const path of NOTES_TO_MEND.slice(0, 40)) {
      const text = noteText(path);
      const there = runInContext(`JSON.stringify(library.check(${JSON.stringify(text)}))`, context);
      expect(JSON.parse(there), path).toEqual(JSON.parse(JSON.stringify(check(text))));
    }
    expect(
      runInContext(`library.drawNote(${JSON.stringify(WRONG_NOTE)}, 'worked')[0].figure.svg`, context),
    ).toMatch(/^<svg|^<\?xml/);
  });

  it.each([false, true])('tells the facts of the document, and offsets besides (waived: %s)', waived => {
    const words = waived ? ['--waived'] : [];
    for (const text of [WRONG_NOTE, WAIVING_NOTE, `\ufeff${WRONG_NOTE.replaceAll('\n', '\r\n')}`]) {
      const { stdout } = leastwise(['check', '-', '--format', 'json', '--no-config', ...words], {
        input: text,
      });
      const [{ path, ...facts }] = JSON.parse(stdout).notes;
      const result = check(text, { waived });
      expect(path).toBe('-');
      expect(
        JSON.parse(JSON.stringify({ blocks: result.blocks, findings: result.findings }, withoutOffsets)),
      ).toEqual(facts);
      for (const { start, end, stated } of result.findings) expect(text.slice(start, end)).toBe(stated);
      for (const { start, end } of result.blocks)
        expect(text.slice(start, end)).toMatch(/^```measurement[\s\S]*```$/);
    }
  });

  it('takes settings as the configuration file has them, and what is left undefined as usual', () => {
    expect(check(WRONG_NOTE, { rules: { 'wrong-value': 'warning' } }).summary).toMatchObject({
      errors: 0,
      warnings: 1,
    });
    expect(check(WRONG_NOTE, { rules: { 'wrong-value': 'off' } }).findings).toEqual([]);
    expect(check(WRONG_NOTE, { student: true }).findings[0]?.computed).toBeNull();
    expect(check(WRONG_NOTE, { errorRule: undefined, rounding: undefined })).toEqual(check(WRONG_NOTE));
  });

  it('throws where a program asks for what there is not, and names it', () => {
    type Options = Parameters<typeof check>[1];
    const wrong = (options: unknown) => () => check(WRONG_NOTE, options as Options);
    expect(wrong({ rules: { 'wrong-value': 'of' } })).toThrow(
      new TypeError('leastwise: wrong-value has to be error, warning or off, not "of"'),
    );
    expect(wrong({ rules: { 'wrong-valeu': 'off' } })).toThrow(
      new TypeError('leastwise: there is no rule wrong-valeu; wrong-value is likely meant'),
    );
    expect(wrong({ roundings: 'either' })).toThrow(/there is no setting roundings; rounding is likely meant/);
    expect(wrong({ errorRule: 'least counts' })).toThrow(TypeError);
    expect(wrong({ student: 1 })).toThrow(/student has to be true or false, not 1/);
    expect(wrong({ waived: 'yes' })).toThrow(/waived has to be true or false, not "yes"/);
    for (const text of [undefined, null, 3, new Uint8Array()]) {
      expect(() => check(text as unknown as string)).toThrow(/^leastwise: a note is a piece of text, not /);
      expect(() => checkNote(text as unknown as string)).toThrow(TypeError);
      expect(() => drawNote(text as unknown as string, 'worked')).toThrow(TypeError);
    }
    expect(() => drawNote(WRONG_NOTE, 'solved' as 'worked')).toThrow(
      new TypeError('leastwise: a style is question or worked, not "solved"'),
    );
    expect(() => checkNote(WRONG_NOTE, { ...DEFAULT_SETTINGS, rounding: 'up' as 'either' })).toThrow(
      TypeError,
    );
    expect(wrong({ ...DEFAULT_SETTINGS, rules: { 'wrong-value': undefined } })()).toEqual(check(WRONG_NOTE));
  });

  it('counts waived findings, and lists them where they are asked for', () => {
    expect(check(WAIVING_NOTE)).toMatchObject({ findings: [], summary: { errors: 0, waived: 1 } });
    expect(check(WAIVING_NOTE, { waived: true }).findings).toMatchObject([
      { rule: 'wrong-value', waived: 'printed this way in the exercise sheet' },
    ]);
    expect(check('no note at all')).toEqual({
      ...{ blocks: [], findings: [] },
      summary: { blocks: 0, claims: 0, errors: 0, warnings: 0, waived: 0 },
    });
  });
});

function withoutOffsets(key: string, value: unknown): unknown {
  return key === 'start' || key === 'end' ? undefined : value;
}
