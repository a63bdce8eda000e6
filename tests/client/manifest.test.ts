import { describe, expect, it } from 'vitest';
import { projectFiles, projectText } from '../support/project-files.ts';

type Json = Record<string, unknown>;

const manifest = JSON.parse(projectText('package.json')) as Json & {
  readonly contributes: {
    readonly commands: readonly { readonly command: string }[];
    readonly menus: { readonly commandPalette: readonly { readonly command: string }[] };
    readonly configuration: { readonly properties: Json };
    readonly walkthroughs: readonly {
      readonly steps: readonly { readonly media: { readonly markdown: string } }[];
    }[];
  };
};
const words = JSON.parse(projectText('package.nls.json')) as Record<string, string>;
const clientSources = projectFiles().filter(path => /^client\/src\/.*\.ts$/.test(path));

/** A part of the manifest with its words in the place of their keys. */
function inWords(part: unknown): unknown {
  return JSON.parse(JSON.stringify(part), (_, value) =>
    typeof value === 'string' && /^%.+%$/.test(value) ? words[value.slice(1, -1)] : value,
  );
}

describe('the manifest of the extension', () => {
  it('has a word for every key, and a key for every word', () => {
    const keys = [...JSON.stringify(manifest).matchAll(/"%([^%"]+)%"/g)].map(([, key = '']) => key);
    expect([...new Set(keys)].sort()).toEqual(Object.keys(words).sort());
  });

  it('says all words for people by keys', () => {
    const { commands, walkthroughs, configuration } = manifest.contributes;
    const said = JSON.stringify([commands, walkthroughs, configuration.properties]).matchAll(
      /"(?:title|description|markdownDescription)":"([^"]*)"/g,
    );
    expect([...said].map(([, text = '']) => text).filter(text => !/^%.*%$/.test(text))).toEqual([]);
  });

  it('names the settings that the configuration file has, as its schema says them', () => {
    const shared = JSON.parse(projectText('server/schema/editor-settings.json')) as Json;
    const withoutPlain = JSON.parse(JSON.stringify(shared), function (key, value) {
      return key === 'description' && this.markdownDescription !== undefined ? undefined : value;
    }) as Json;
    const { properties } = manifest.contributes.configuration;
    const listed = Object.fromEntries(Object.keys(shared).map(name => [name, inWords(properties[name])]));
    expect(listed).toEqual(withoutPlain);
    const all = Object.values(properties) as Json[];
    expect(all.filter(each => each.default === undefined || each.markdownDescription === undefined)).toEqual(
      [],
    );
  });

  it('offers the commands that the client registers, each only where it makes sense', () => {
    const { commands, menus } = manifest.contributes;
    const named = commands.map(({ command }) => command).sort();
    expect(menus.commandPalette.map(({ command }) => command).sort()).toEqual(named);
    const sources = clientSources.map(projectText).join('\n');
    expect(named.filter(command => !sources.includes(`'${command}'`))).toEqual([]);
  });

  it('shows pages and pictures that are there', () => {
    const pages = manifest.contributes.walkthroughs.flatMap(({ steps }) =>
      steps.map(({ media }) => media.markdown),
    );
    const files = projectFiles();
    expect(pages.filter(page => !files.includes(page))).toEqual([]);
    const pictures = pages.flatMap(page =>
      [...projectText(page).matchAll(/\]\(\.\.\/([^)]+)\)/g)].map(([, path = '']) => `client/${path}`),
    );
    expect(pictures.filter(path => !files.includes(path) || !path.endsWith('.png'))).toEqual([]);
  });
});

describe('the words of the client', () => {
  it('are all ready to be translated', () => {
    const ready = JSON.parse(projectText('l10n/bundle.l10n.json')) as Json;
    const said = clientSources.flatMap(path =>
      [...projectText(path).matchAll(/l10n\.t\(\s*'([^']+)'/g)].map(([, text = '']) => text),
    );
    expect(Object.keys(ready).sort()).toEqual([...new Set(said)].sort());
    expect(said.length).toBeGreaterThan(10);
  });
});
