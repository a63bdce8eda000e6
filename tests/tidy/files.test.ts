import { describe, expect, it } from 'vitest';
import { projectFiles, projectText } from '../support/project-files.ts';

const MOST_LINES = 300;
const code = projectFiles().filter(path => /^(server\/src|client\/src|tests)\/.*\.[cm]?ts$/.test(path));

function lineCount(path: string): number {
  return projectText(path).split('\n').length - 1;
}

/** Words are put together here, so that this file does not find itself. */
const MARKS = ['TO' + 'DO', 'FIX' + 'ME', 'XX' + 'X'];
const UNFINISHED = new RegExp(`\\b(?:${MARKS.join('|')})\\b`);
const LEFT_OUT = new RegExp(`\\.(?:${['sk' + 'ip', 'on' + 'ly', 'to' + 'do'].join('|')})\\(`);
const MACHINE_PATH = /(?<![\w.)\]}>-])\/(?:work|farm|root|tmp|home|Users)\/[A-Za-z]/;
const REGISTRY = /\bregistry\.[a-z]+\.[a-z]+/;

const texts = projectFiles().filter(path =>
  /\.(?:[cm]?[jt]s|json|md|yml|yaml|sh)$|^\.ci\/|^\.npmrc$/.test(path),
);

function linesMatching(pattern: RegExp, paths: readonly string[]): readonly string[] {
  return paths.flatMap(path =>
    projectText(path)
      .split('\n')
      .flatMap((line, at) => (pattern.test(line) ? [`${path}:${at + 1} ${line.trim().slice(0, 100)}`] : [])),
  );
}

describe('every file', () => {
  it(`of code has at most ${MOST_LINES} lines`, () => {
    expect(code.length).toBeGreaterThan(20);
    expect(
      code.filter(path => lineCount(path) > MOST_LINES).map(path => `${path} ${lineCount(path)}`),
    ).toEqual([]);
  });

  it('of code is named in kebab case, and none is a drawer for everything', () => {
    const names = code.map(path => path.split('/').at(-1) ?? '');
    expect(
      names.filter(name => !/^[a-z0-9]+(?:-[a-z0-9]+)*(?:\.(?:test|config|d))?\.[cm]?ts$/.test(name)),
    ).toEqual([]);
    expect(names.filter(name => /^(?:utils?|helpers?|common|misc)\.ts$/.test(name))).toEqual([]);
  });

  it('is finished', () => {
    expect(linesMatching(UNFINISHED, texts)).toEqual([]);
  });

  it('of tests runs whole', () => {
    expect(linesMatching(LEFT_OUT, code)).toEqual([]);
  });

  it('knows no machine and no registry', () => {
    expect(linesMatching(MACHINE_PATH, texts)).toEqual([]);
    expect(linesMatching(REGISTRY, texts)).toEqual([]);
  });
});

describe('lock files', () => {
  const locks = projectFiles().filter(path => path.endsWith('package-lock.json'));

  it('hold no addresses but those of who may be supported', () => {
    expect(locks.length).toBeGreaterThan(0);
    for (const path of locks) {
      const { packages } = JSON.parse(projectText(path)) as {
        packages: Record<string, Record<string, unknown>>;
      };
      for (const [name, { funding, ...entry }] of Object.entries(packages)) {
        expect(entry, `${path}, ${name}`).not.toHaveProperty('resolved');
        expect(JSON.stringify(entry), `${path}, ${name}`).not.toMatch(/https?:/);
      }
    }
  });

  it('leave addresses out in every package', () => {
    for (const path of locks) {
      expect(projectText(path.replace('package-lock.json', '.npmrc'))).toContain(
        'omit-lockfile-registry-resolved=true',
      );
    }
  });
});
