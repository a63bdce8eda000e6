import { execFileSync, spawnSync } from 'node:child_process';
import { copyFileSync, cpSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { folderOf, LAUNCHER, leastwise } from '../support/command.ts';
import { PROJECT_ROOT, projectText } from '../support/project-files.ts';
import { jobsOf, type Machine, runAction, runJob } from '../support/workflow.ts';
import { RIGHT_NOTE, WARNING_NOTE, WRONG_NOTE } from '../support/workshop-notes.ts';

const RIGHT_BANK = {
  'notes/a.md': RIGHT_NOTE,
  'notes/b.md': WARNING_NOTE,
  'notes/c d.md': RIGHT_NOTE,
  'notes/e.md': '# Oil\n',
  'notes/f.md': RIGHT_NOTE,
};
const WRONG_BANK = { ...RIGHT_BANK, 'notes/b.md': WRONG_NOTE };

/** A machine of a build host with a checkout of a bank; `artifacts` are what jobs hand on. */
function machine(files: Readonly<Record<string, string>>, artifacts: string): Machine {
  return { workspace: folderOf(files), temp: folderOf({}), artifacts };
}

describe('the action', () => {
  const run = (
    inputs: Readonly<Record<string, string>>,
    files: Readonly<Record<string, string>> = RIGHT_BANK,
  ) => {
    const where = machine(files, folderOf({}));
    return { where, steps: runAction(inputs, where) };
  };

  it('passes where nothing is wrong, and leaves nothing behind in the checkout', () => {
    const { where, steps } = run({});
    expect(steps.map(({ status }) => status)).toEqual([0, 0]);
    expect(execFileSync('ls', ['-A', where.workspace], { encoding: 'utf8' })).toBe('notes\n');
  });

  it('fails where something is, and says where to the host', () => {
    const { steps } = run({ paths: 'notes' }, WRONG_BANK);
    expect(steps.map(({ status }) => status)).toEqual([0, 1]);
    expect(steps[1]?.stdout).toMatch(/^::error .*file=notes\/b\.md,.*line=15/m);
  });

  it('takes paths line by line, a share, a file for the report and a cache', () => {
    const { where, steps } = run(
      { paths: 'notes/c d.md\nnotes/b.md\n', shard: '2/2', json: 'share.json', cache: '.kept' },
      WRONG_BANK,
    );
    expect(steps[1]).toMatchObject({ status: 1, stderr: '' });
    const report = JSON.parse(readFileSync(join(where.workspace, 'share.json'), 'utf8'));
    expect(report).toMatchObject({ notes: [{ path: 'notes/b.md' }], share: { index: 2, of: 2 } });
    expect(existsSync(join(where.workspace, '.kept/CACHEDIR.TAG'))).toBe(true);
  });

  it('lets no input be read as a command or an option', () => {
    const { where, steps } = run({ paths: '--fix\n$(touch hit)\n`touch hit`; touch hit\nnotes' });
    expect(steps[1]).toMatchObject({ status: 2 });
    expect(existsSync(join(where.workspace, 'hit'))).toBe(false);
    expect(steps[1]?.stderr).toContain('there is no file or folder --fix');
  });

  it('can make the command ready and no more', () => {
    const { steps } = run({ paths: '' }, WRONG_BANK);
    expect(steps).toMatchObject([{ status: 0 }]);
  });
});

describe('the matrix', () => {
  const PATH = 'examples/ci/matrix.yml';

  /** Runs all its jobs; every share on a machine of its own. */
  const run = (files: Readonly<Record<string, string>>) => {
    const artifacts = folderOf({});
    const jobs = jobsOf(PATH);
    const shares = (jobs.get('share') ?? []).map(({ job, known }) =>
      runJob(job, known, machine(files, artifacts)),
    );
    const [bank] = jobs.get('bank') ?? [];
    if (bank === undefined) throw new Error('nobody puts the shares together');
    const where = machine({}, artifacts);
    const steps = runJob(bank.job, bank.known, where);
    return { shares, steps, report: readFileSync(join(where.workspace, 'report.json'), 'utf8') };
  };

  it.each([
    ['right', RIGHT_BANK, 0],
    ['wrong', WRONG_BANK, 1],
  ] as const)('gives the report and the status of one run, of a bank that is %s', (_, files, status) => {
    const plain = leastwise(['check', 'notes', '--format', 'json'], { cwd: folderOf(files) });
    expect(plain.status).toBe(status);
    const { shares, steps, report } = run(files);
    expect(shares).toHaveLength(4);
    expect(Math.max(...shares.flatMap(all => all.map(step => step.status ?? 9)))).toBe(status);
    expect(steps.at(-1)).toMatchObject({ status, stderr: '' });
    expect(report).toBe(plain.stdout);
  });

  it('waits for all shares before they are put together, whether they found errors or not', () => {
    const [bank] = jobsOf(PATH).get('bank') ?? [];
    expect(bank?.job.needs).toBe('share');
    expect(projectText(PATH)).toMatch(/bank:\n {4}needs: share\n {4}if: \$\{\{ !cancelled\(\) \}\}/);
  });
});

describe('before a commit', () => {
  const environment = () => {
    const commands = folderOf({ leastwise: `#!/bin/sh\nexec "${process.execPath}" "${LAUNCHER}" "$@"\n` });
    execFileSync('chmod', ['+x', join(commands, 'leastwise')]);
    const { GIT_DIR, GIT_INDEX_FILE, ...rest } = process.env;
    return {
      ...rest,
      PATH: `${commands}:${process.env.PATH}`,
      GIT_CONFIG_GLOBAL: '/dev/null',
      NO_COLOR: '1',
    };
  };
  const repository = (files: Readonly<Record<string, string>>) => {
    const cwd = folderOf(files);
    const env = environment();
    const git = (...words: readonly string[]) => spawnSync('git', words, { cwd, env, encoding: 'utf8' });
    git('init', '--quiet');
    git('config', 'user.name', 'bench');
    git('config', 'user.email', 'bench@example.org');
    return { cwd, env, git };
  };

  describe('the hook of git itself', () => {
    const hooked = (files: Readonly<Record<string, string>>) => {
      const made = repository(files);
      mkdirSync(join(made.cwd, '.git/hooks'), { recursive: true });
      copyFileSync(join(PROJECT_ROOT, 'examples/ci/pre-commit'), join(made.cwd, '.git/hooks/pre-commit'));
      return made;
    };

    it('lets right notes through, and those that are no notes', () => {
      const { git, cwd } = hooked(RIGHT_BANK);
      git('add', '.');
      expect(git('commit', '--message', 'Add notes')).toMatchObject({ status: 0 });
      writeFileSync(join(cwd, 'list.txt'), 'oil');
      git('add', '.');
      expect(git('commit', '--message', 'Add a list')).toMatchObject({ status: 0 });
      rmSync(join(cwd, 'notes/a.md'));
      expect(git('commit', '--all', '--message', 'Drop a note')).toMatchObject({ status: 0 });
    });

    it('stops a wrong one, as it is committed and not as it lies there', () => {
      const { git, cwd } = hooked(WRONG_BANK);
      git('add', '.');
      writeFileSync(join(cwd, 'notes/b.md'), RIGHT_NOTE);
      const stopped = git('commit', '--message', 'Add notes');
      expect(stopped.status).toBe(1);
      expect(stopped.stdout + stopped.stderr).toContain('notes/b.md, line 15');
      git('add', '.');
      writeFileSync(join(cwd, 'notes/b.md'), WRONG_NOTE);
      expect(git('commit', '--message', 'Add notes')).toMatchObject({ status: 0 });
    });

    it('looks at the configuration, and at no other note', () => {
      const { git, cwd } = hooked({ 'notes/b.md': WRONG_NOTE });
      git('add', '.');
      git('commit', '--no-verify', '--message', 'Begin');
      writeFileSync(join(cwd, 'notes/a.md'), RIGHT_NOTE);
      git('add', '.');
      expect(git('commit', '--message', 'Add a right note')).toMatchObject({ status: 0 });
      writeFileSync(join(cwd, 'leastwise.config.json'), '{"rules":{"wrong-value":"off"}}');
      git('add', '.');
      git('commit', '--message', 'Settle it');
      writeFileSync(join(cwd, 'notes/c.md'), WRONG_NOTE);
      git('add', '.');
      expect(git('commit', '--message', 'Add another')).toMatchObject({ status: 0 });
    });
  });

  describe('the definition of a hook', () => {
    const [hook] = parse(projectText('.pre-commit-hooks.yaml')) as readonly {
      id: string;
      entry: string;
      language: string;
      types: readonly string[];
    }[];

    it('runs a command that takes the names of notes', () => {
      expect(hook).toMatchObject({ id: 'leastwise', language: 'system', types: ['markdown'] });
      const { cwd, env } = repository(WRONG_BANK);
      const run = (...names: readonly string[]) =>
        spawnSync('bash', ['-c', `${hook?.entry} "$@"`, 'bash', ...names], { cwd, env, encoding: 'utf8' })
          .status;
      expect(run('notes/a.md', 'notes/c d.md')).toBe(0);
      expect(run('notes/a.md', 'notes/b.md')).toBe(1);
    });

    it('finds the command where the package is installed, which holds it whatever git leaves out', () => {
      const cwd = folderOf({});
      for (const path of [
        'package.json',
        '.npmignore',
        '.gitignore',
        'README.md',
        'server/bin',
        'server/dist',
        'server/schema',
      ])
        cpSync(join(PROJECT_ROOT, path), join(cwd, path), { recursive: true });
      const packed = spawnSync('npm', ['pack', '--ignore-scripts', '--silent'], { cwd, encoding: 'utf8' });
      expect(packed).toMatchObject({ status: 0 });
      execFileSync('tar', ['xzf', packed.stdout.trim()], { cwd });
      const run = spawnSync(process.execPath, [join(cwd, 'package/server/bin/leastwise.js'), 'check', '-'], {
        input: WRONG_NOTE,
        encoding: 'utf8',
      });
      expect(run).toMatchObject({ status: 1, stderr: '' });
    });
  });
});

describe('the README', () => {
  const fences = [...projectText('README.md').matchAll(/^```(\w+)\n([\s\S]*?)^```$/gm)].map(
    ([, language = '', text = '']) => ({ language, text }),
  );
  const fence = (language: string, word: string): string =>
    fences.find(each => each.language === language && each.text.includes(word))?.text ?? '';

  it.each([
    ['yaml', 'matrix:', 'examples/ci/matrix.yml'],
    ['sh', 'git diff', 'examples/ci/pre-commit'],
  ])('shows in %s with %s what %s holds', (language, word, path) => {
    expect(fence(language, word)).toBe(projectText(path));
  });

  it('names the hook by the name that it has', () => {
    const { repos } = parse(fence('yaml', 'repos:')) as { repos: readonly { hooks: readonly unknown[] }[] };
    const [hook] = parse(projectText('.pre-commit-hooks.yaml')) as readonly { id: string }[];
    expect(repos.flatMap(({ hooks }) => hooks)).toEqual([{ id: hook?.id }]);
  });

  it('shows commands that put a report together as it is said there', () => {
    const cwd = folderOf(RIGHT_BANK);
    const commands = fence('sh', '--shard 1/2');
    expect(commands.trim().split('\n')).toHaveLength(3);
    const run = spawnSync(
      'bash',
      ['-e', '-c', `leastwise() { "${process.execPath}" "${LAUNCHER}" "$@"; }\n${commands}`],
      {
        cwd,
        encoding: 'utf8',
      },
    );
    expect(run).toMatchObject({ status: 0, stdout: '', stderr: '' });
    const plain = leastwise(['check', 'notes', '--format', 'json'], { cwd });
    expect(readFileSync(join(cwd, 'report.json'), 'utf8')).toBe(plain.stdout);
  });
});
