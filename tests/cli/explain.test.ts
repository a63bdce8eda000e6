import { describe, expect, it } from 'vitest';
import { version } from '../../package.json';
import { leastwise } from '../support/command.ts';

describe('explain', () => {
  it('prints a rule with its example', () => {
    const run = leastwise(['explain', 'wrong-value']);
    expect(run).toMatchObject({ status: 0, stderr: '' });
    expect(run.stdout).toMatch(/^wrong-value \(a rule; what it finds is an error\)\n\n/);
    expect(run.stdout).toContain('    ```measurement');
    expect(run.stdout).toMatch(/\^ error wrong-value/);
  });

  it('prints a slip', () => {
    expect(leastwise(['explain', 'zero-correction-sign']).stdout).toMatch(/^zero-correction-sign \(a slip; /);
  });

  it('prints a term by its name of several words, quoted or not, and by its abbreviations', () => {
    const { stdout } = leastwise(['explain', 'least', 'count']);
    expect(stdout).toMatch(/^least count \(a term; worked out, or given in the question\)\n\n/);
    expect(stdout).toMatch(/\nalso {6}LC, /);
    for (const name of ['least count', 'LC', 'L.C.', 'Least-Count']) {
      expect(leastwise(['explain', name]).stdout).toBe(stdout);
    }
  });

  it('lists all names without one', () => {
    const { stdout, status } = leastwise(['explain']);
    expect(status).toBe(0);
    for (const name of ['wrong-value', 'limit', 'zero-correction-sign', 'main scale reading']) {
      expect(stdout).toMatch(new RegExp(`^  ${name}  +\\S`, 'm'));
    }
    for (const line of stdout.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  it('offers what a wrong name may have meant', () => {
    expect(leastwise(['explain', 'lesat count'])).toMatchObject({
      status: 2,
      stdout: '',
      stderr:
        'leastwise: there is no rule, slip, term or instrument lesat count: did you mean least count?\n',
    });
    expect(leastwise(['explain', 'wrong']).stderr).toMatch(/did you mean .*wrong-value/);
    expect(leastwise(['explain', 'qqqq\x1b']).stderr).toBe(
      'leastwise: there is no rule, slip, term or instrument qqqq<U+001B>: `leastwise explain` lists all names\n',
    );
  });
});

describe('help', () => {
  it('shows the commands, examples and the exit status', () => {
    const { stdout, status } = leastwise(['--help']);
    expect(status).toBe(0);
    for (const words of ['check [options]', 'explain [', "leastwise check 'notes/", 'Exit status: 0']) {
      expect(stdout).toContain(words);
    }
    for (const line of stdout.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  it('tells the options of a command', () => {
    const { stdout } = leastwise(['check', '--help']);
    for (const option of ['--format', '--waived', '--stdin-filename']) expect(stdout).toContain(option);
  });

  it('tells the version', () => {
    expect(leastwise(['--version'])).toEqual({ status: 0, stdout: `${version}\n`, stderr: '' });
  });
});
