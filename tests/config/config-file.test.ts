import { describe, expect, it } from 'vitest';
import { DEFAULT_SETTINGS } from '../../server/src/checks/settings.ts';
import { readConfigFile } from '../../server/src/config/config-file.ts';
import { generatedSchemas } from '../../server/src/config/generated-schemas.ts';
import { ignoredNotes } from '../../server/src/config/ignored-notes.ts';
import { mergedSettings } from '../../server/src/config/merged-settings.ts';
import { readSettings } from '../../server/src/config/read-settings.ts';
import { SETTINGS } from '../../server/src/config/setting-table.ts';
import { RULE_NAMES } from '../../server/src/language/rule-names.ts';
import { projectText } from '../support/project-files.ts';

/** What is wrong with a text, with the piece that is underlined. */
function troublesOf(text: string): readonly string[] {
  return readConfigFile(text).troubles.map(
    ({ span, message }) => `${JSON.stringify(text.slice(span.start, span.end))}: ${message}`,
  );
}

describe('a configuration file', () => {
  it('sets what it names', () => {
    const text = `{
      "$schema": "./leastwise.config.schema.json",
      "rules": { "stated-precision": "off", "carried-forward": "error" },
      "errorRule": "half the least count",
      "way": "scales",
      "rounding": "to-even",
      "ignore": ["drafts/", "**/*.draft.md"],
      "student": true
    }`;
    expect(readConfigFile(text)).toEqual({
      settings: {
        rules: { 'stated-precision': 'off', 'carried-forward': 'error' },
        errorRule: 'half the least count',
        way: 'scales',
        rounding: 'to-even',
        ignore: ['drafts/', '**/*.draft.md'],
        student: true,
      },
      troubles: [],
    });
    expect(readConfigFile('\ufeff{ "way": null }\r\n')).toEqual({ settings: { way: null }, troubles: [] });
    expect(readConfigFile('{}')).toEqual({ settings: {}, troubles: [] });
  });

  it('tells what is wrong at its place, and keeps the rest', () => {
    const text =
      '{"studnet": true, "rules": {"wrong-valeu": "off", "limit": "warn"}, "rounding": "up", "ignore": ["a", 3], "student": true}';
    expect(troublesOf(text)).toEqual([
      '"\\"studnet\\"": there is no setting studnet; student is likely meant',
      '"\\"wrong-valeu\\"": there is no rule wrong-valeu; wrong-value is likely meant',
      '"\\"warn\\"": limit has to be error, warning or off, not "warn"',
      '"\\"up\\"": rounding has to be either, away-from-zero or to-even, not "up"',
      '"3": a pattern is a piece of text that names notes, not 3',
    ]);
    expect(readConfigFile(text).settings).toEqual({ rules: {}, ignore: ['a'], student: true });
    expect(troublesOf('{"colour": "red"}')[0]).toMatch(
      /the settings are rules, errorRule, way, rounding, ignore and student$/,
    );
    expect(troublesOf('{"student": true, "rules": {}, "student": false}')).toEqual([
      '"\\"student\\"": student is written twice; only this last one holds',
    ]);
    expect(troublesOf('[]')).toEqual(['"[]": a configuration is an object of settings: `{ … }`']);
  });

  it('that is no JSON has one trouble, and what can be read of it holds', () => {
    for (const [text, words] of [
      ['', /empty/],
      [' \n', /empty/],
      ['{"student": true', /brace/],
      ['{"student": true "way": null}', /comma is missing/],
      ['{"student": true,}', /name in double quotes/],
      ['// ours\n{}', /comment/],
      ['{"student": tru}', /this sign may not stand here/],
      ['{"student"', /./],
      ['{"a": "b', /./],
      ['['.repeat(90_000), /nested|bracket/],
      ['x'.repeat(100_001), /long at most/],
    ] as const) {
      const troubles = troublesOf(text);
      expect(troubles, text.slice(0, 40)).toHaveLength(1);
      expect(troubles[0]).toMatch(words);
    }
    expect(readConfigFile('{"student": true "way": 1}').settings).toEqual({ student: true });
  });
});

describe("the editor's settings", () => {
  it('may hold more than is known here, and are taken with what is missing', () => {
    expect(readSettings({ student: true, inlayHints: {}, way: null }, false)).toEqual({
      settings: { student: true, way: null },
      troubles: [],
    });
    for (const nothing of [null, undefined, [], 'x', 3])
      expect(readSettings(nothing, false)).toEqual({ settings: {}, troubles: [] });
  });

  it('give way to the file, name by name and rule by rule', () => {
    expect(
      mergedSettings(
        { rules: { limit: 'off', 'wrong-key': 'warning' }, way: 'scales', student: true },
        { rules: { limit: 'error' }, student: false },
      ),
    ).toEqual({ ...DEFAULT_SETTINGS, rules: { limit: 'error', 'wrong-key': 'warning' }, way: 'scales' });
  });
});

describe('ignored notes', () => {
  it.each([
    ['drafts', 'drafts/a.md', true],
    ['drafts/', 'drafts/deep/a.md', true],
    ['./drafts', 'drafts/a.md', true],
    ['drafts', 'set/drafts/a.md', false],
    ['**/drafts', 'set/drafts/a.md', true],
    ['*.draft.md', 'a.draft.md', true],
    ['*.draft.md', 'set/a.draft.md', false],
    ['**/*.draft.md', 'set/a.draft.md', true],
    ['**/*.draft.md', 'a.draft.md', true],
    ['set-{1,2}.md', 'set-2.md', true],
    ['Set (1)/*', 'Set 1/a.md', true],
    ['archive\\old', 'archive/old/a.md', true],
    ['**', 'a.md', true],
    ['**', '../a.md', false],
    ['[', 'a.md', false],
  ])('%s and %s', (pattern, path, isOut) => {
    expect(ignoredNotes([pattern])(path)).toBe(isOut);
  });

  // The last that matches holds; the folder of a note counts as the note does.
  it.each([
    [['drafts/**', '!drafts/keep.md'], 'drafts/keep.md', false],
    [['drafts/**', '!drafts/keep.md'], 'drafts/a.md', true],
    [['drafts/**', '!drafts/keep.md'], 'a.md', false],
    [['drafts', '!drafts/keep.md'], 'drafts/keep.md', false],
    [['drafts', '!./drafts/keep'], 'drafts/keep/a.md', false],
    [['!drafts/keep.md', 'drafts/**'], 'drafts/keep.md', true],
    [['**', '!set', 'set/old'], 'set/a.md', false],
    [['**', '!set', 'set/old'], 'set/old/a.md', true],
    [['!drafts/keep.md'], 'a.md', false],
    [['!(keep).md'], 'keep.md', false],
    [['!(keep).md'], 'a.md', true],
  ] as const)('%j and %s', (patterns, path, isOut) => {
    expect(ignoredNotes(patterns)(path)).toBe(isOut);
  });

  it('cannot be named by a pattern that matches nothing whatever there is', () => {
    const message = (pattern: string) => readSettings({ ignore: [pattern] }, true).troubles[0]?.message ?? '';
    const [unread, out] = ['this pattern cannot be read: ', 'this pattern leads out of the folder'];
    expect(message('[')).toBe(`${unread}a bracket is opened and no ] closes it`);
    expect(message('!draft[1.md')).toMatch(unread);
    for (const pattern of ['../top.md', '!../top.md', '..', 'set/../top.md', '..\\top.md'])
      expect(message(pattern)).toMatch(out);
    for (const pattern of ['C:\\bank\\drafts', 'c:/bank', '~/bank/drafts'])
      expect(message(pattern)).toMatch(/cannot be a whole path$/);
    const inBank = (pattern: string) => readSettings({ ignore: [pattern] }, true, '/srv/bank').troubles;
    for (const pattern of ['/srv/bank/drafts/**', '!/srv/bank/drafts/keep.md', '/srv/bank'])
      expect(inBank(pattern)[0]?.message).toMatch(/cannot be a whole path$/);
    for (const pattern of ['/drafts', '/srv/drafts', '/srv/banks']) expect(inBank(pattern)).toEqual([]);
    for (const pattern of ['!', '/', './', '.']) expect(message(pattern)).toBe('this pattern names nothing');
    for (const pattern of ['a..b.md', '...', '/drafts', '[ab].md', '!drafts/keep.md'])
      expect(message(pattern)).toBe('');
  });

  it('are none where nothing is said', () => {
    expect(ignoredNotes([])('a.md')).toBe(false);
  });
});

describe('the schema', () => {
  const schema = JSON.parse(generatedSchemas().get('leastwise.config.schema.json')!) as {
    properties: Record<string, { default?: unknown; enum?: unknown[]; properties?: object }>;
  };

  it('stands in the repository as the declarations give it', () => {
    for (const [name, text] of generatedSchemas())
      expect(projectText(`server/schema/${name}`), name).toBe(text);
  });

  it('knows every setting with its usual value, and every rule', () => {
    const { $schema, ...settings } = schema.properties;
    expect($schema).toBeDefined();
    expect(Object.fromEntries(Object.entries(settings).map(([name, each]) => [name, each.default]))).toEqual(
      DEFAULT_SETTINGS,
    );
    expect(Object.keys(settings.rules!.properties!)).toEqual(RULE_NAMES);
    expect(SETTINGS.map(({ name }) => name).sort()).toEqual(Object.keys(DEFAULT_SETTINGS).sort());
  });

  it('offers what is taken, and nothing else', () => {
    for (const [name, { enum: words }] of Object.entries(schema.properties)) {
      for (const word of words ?? [])
        expect(readConfigFile(JSON.stringify({ [name]: word })).troubles, name).toEqual([]);
      if (words !== undefined) expect(readConfigFile(`{"${name}": "x"}`).troubles).toHaveLength(1);
    }
  });

  it("offers the same as the editor's settings, whose words may be translated", () => {
    const { contributes } = JSON.parse(projectText('package.json')) as {
      contributes: { configuration: { properties: Record<string, object> } };
    };
    const ours = JSON.parse(generatedSchemas().get('editor-settings.json')!) as Record<string, object>;
    for (const [name, wanted] of Object.entries(ours))
      expect(withoutWords(contributes.configuration.properties[name]), name).toEqual(withoutWords(wanted));
  });
});

function withoutWords(schema: unknown): unknown {
  const words = ['description', 'markdownDescription', 'enumDescriptions', 'order'];
  return JSON.parse(JSON.stringify(schema, (key, value) => (words.includes(key) ? undefined : value)));
}
