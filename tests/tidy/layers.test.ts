import { posix } from 'node:path';
import { describe, expect, it } from 'vitest';
import { projectFiles, projectText } from '../support/project-files.ts';

/** Which of our folders each layer may import from, besides itself. */
const LAYERS: Readonly<Record<string, readonly string[]>> = {
  engine: [],
  render: ['engine'],
  language: ['engine'],
  checks: ['engine', 'language', 'render'],
  workings: ['engine', 'language', 'render', 'checks'],
  figures: ['engine', 'language', 'render', 'checks', 'workings'],
  actions: ['engine', 'language', 'render', 'checks', 'workings', 'figures'],
  config: ['language', 'checks'],
  reference: ['engine', 'language', 'checks', 'figures'],
  lsp: ['engine', 'language', 'render', 'checks', 'workings', 'figures', 'actions', 'config', 'reference'],
  cli: [
    'engine',
    'language',
    'render',
    'checks',
    'workings',
    'figures',
    'actions',
    'config',
    'reference',
    'lsp',
  ],
  library: ['checks', 'figures', 'config'],
  // The library's one way in.
  'index.ts': ['checks', 'figures', 'library'],
};

/** Libraries that a pure layer may use; the outer layers are free. */
const LIBRARIES: Readonly<Record<string, readonly string[]>> = {
  engine: ['fraction.js'],
  render: [],
  language: ['mdast', 'mdast-util-from-markdown', 'micromark', 'remark-parse', 'unified'],
  checks: [],
  workings: [],
  figures: [],
  actions: [],
  config: ['ignore', 'jsonc-parser', 'picomatch/posix'],
  reference: [],
  library: [],
  'index.ts': [],
};

interface Import {
  readonly from: string;
  readonly what: string;
}

const IMPORT =
  /(?:^|\n)\s*(?:import|export)\s[^;'"]*?from\s+['"]([^'"]+)['"]|import\(\s*['"]([^'"]+)['"]\s*\)|(?:^|\n)import\s+['"]([^'"]+)['"]/g;

function importsUnder(folder: string): readonly Import[] {
  return projectFiles()
    .filter(path => path.startsWith(folder) && /\.[cm]?tsx?$/.test(path))
    .flatMap(from =>
      [...projectText(from).matchAll(IMPORT)].map(match => ({
        from,
        what: match[1] ?? match[2] ?? match[3] ?? '',
      })),
    );
}

const serverImports = importsUnder('server/src/');

function layerOf(path: string): string {
  return posix.relative('server/src', path).split('/')[0] ?? '';
}

function isOurs(each: Import): boolean {
  return each.what.startsWith('.');
}

function target(each: Import): string {
  return posix.join(posix.dirname(each.from), each.what);
}

function told(each: Import): string {
  return `${each.from} imports ${each.what}`;
}

describe('the layers of the server', () => {
  it('are the ones that are known here', () => {
    const layers = new Set(
      projectFiles()
        .filter(path => /^server\/src\/.*\.ts$/.test(path))
        .map(layerOf),
    );
    expect([...layers].filter(layer => !(layer in LAYERS))).toEqual([]);
    expect(serverImports.length).toBeGreaterThan(20);
  });

  it('import downwards only', () => {
    const wrong = serverImports.filter(isOurs).filter(each => {
      if (!target(each).startsWith('server/src/'))
        return target(each) !== 'package.json' || layerOf(each.from) !== 'cli';
      const to = layerOf(target(each));
      return to !== layerOf(each.from) && !(LAYERS[layerOf(each.from)] ?? []).includes(to);
    });
    expect(wrong.map(told)).toEqual([]);
  });

  it('use only the libraries that are theirs, and nothing of Node outside the command line and the server', () => {
    const wrong = serverImports.filter(each => {
      const allowed = LIBRARIES[layerOf(each.from)];
      return !isOurs(each) && allowed !== undefined && !allowed.includes(each.what);
    });
    expect(wrong.map(told)).toEqual([]);
  });

  it('reach fraction.js through one file', () => {
    const wrong = serverImports.filter(
      ({ from, what }) => what === 'fraction.js' && from !== 'server/src/engine/rational.ts',
    );
    expect(wrong.map(told)).toEqual([]);
  });

  it('name every file with its ending', () => {
    expect(
      serverImports
        .filter(isOurs)
        .filter(({ what }) => !/\.(ts|json)$/.test(what))
        .map(told),
    ).toEqual([]);
  });
});

describe('the preview of the client', () => {
  it('uses pure layers only', () => {
    const pure = ['engine', 'render', 'language', 'checks', 'workings', 'figures', 'config'];
    const wrong = importsUnder('client/src/preview/').filter(
      each => isOurs(each) && target(each).startsWith('server/src/') && !pure.includes(layerOf(target(each))),
    );
    expect(wrong.map(told)).toEqual([]);
  });
});
