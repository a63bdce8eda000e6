import { spawnSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { parse } from 'yaml';
import { PROJECT_ROOT, projectText } from './project-files.ts';

/** A step of a job or of a composite action, as far as the project's own definitions go. */
interface Step {
  readonly name?: string;
  readonly if?: string;
  readonly run?: string;
  readonly shell?: string;
  readonly env?: Readonly<Record<string, string>>;
  readonly uses?: string;
  readonly with?: Readonly<Record<string, string | boolean>>;
}

interface Action {
  readonly inputs: Readonly<Record<string, { readonly default: string }>>;
  readonly runs: { readonly using: string; readonly steps: readonly Step[] };
}

interface Job {
  readonly needs?: string;
  readonly strategy?: { readonly matrix: Readonly<Record<string, readonly (string | number)[]>> };
  readonly steps: readonly Step[];
}

/** Where a job runs: a folder, what it may hand to other jobs, and what its steps wrote. */
export interface Machine {
  readonly workspace: string;
  readonly temp: string;
  readonly artifacts: string;
}

/** What came of the steps of a job, one a command that was run. */
export interface RunStep {
  readonly name: string;
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

type Known = Readonly<Record<string, string>>;

const ACTION_FOLDER = '.github/actions/check';
const OURS = /^[\w-]+\/leastwise\/\.github\/actions\/check@[\w.]+$/;

/** The jobs of a workflow by name, each as often as its matrix says. */
export function jobsOf(
  path: string,
): ReadonlyMap<string, readonly { readonly job: Job; readonly known: Known }[]> {
  const { jobs } = parse(projectText(path)) as { jobs: Readonly<Record<string, Job>> };
  return new Map(
    Object.entries(jobs).map(([name, job]) => {
      const [axis] = Object.entries(job.strategy?.matrix ?? {});
      const values =
        axis === undefined ? [] : axis[1].map(value => ({ [`matrix.${axis[0]}`]: String(value) }));
      return [name, (axis === undefined ? [{}] : values).map(known => ({ job, known: known as Known }))];
    }),
  );
}

/**
 * Runs the steps of a job as a build host does: commands in bash, our own action by its definition, and of what the
 * host brings along only that files go from job to job. Ends at the first step that fails, but for those that run all the
 * same.
 */
export function runJob(job: Job, known: Known, machine: Machine): readonly RunStep[] {
  const ran: RunStep[] = [];
  let hasFailed = false;
  for (const step of job.steps) {
    if (hasFailed && !/cancelled\(\)/.test(step.if ?? '')) continue;
    const steps = stepRuns(step, known, machine);
    hasFailed ||= steps.some(({ status }) => status !== 0);
    ran.push(...steps);
  }
  return ran;
}

/** Runs our composite action with inputs that stand for its defaults. */
export function runAction(given: Known, machine: Machine): readonly RunStep[] {
  const action = parse(projectText(`${ACTION_FOLDER}/action.yml`)) as Action;
  if (action.runs.using !== 'composite') throw new Error('the action is of another kind');
  const unknown = Object.keys(given).filter(name => action.inputs[name] === undefined);
  if (unknown.length > 0) throw new Error(`the action has no input ${unknown.join(', ')}`);
  const known: Record<string, string> = { 'github.action_path': join(PROJECT_ROOT, ACTION_FOLDER) };
  for (const [name, input] of Object.entries(action.inputs))
    known[`inputs.${name}`] = given[name] ?? input.default;
  const ran: RunStep[] = [];
  for (const step of action.runs.steps) {
    if (step.shell !== 'bash') throw new Error('a step of a composite action must name its shell');
    if (step.if !== undefined && !holds(step.if, known)) continue;
    const result = command(step, known, machine);
    ran.push(result);
    if (result.status !== 0) break;
  }
  return ran;
}

function stepRuns(step: Step, known: Known, machine: Machine): readonly RunStep[] {
  if (step.run !== undefined) return [command(step, known, machine)];
  const given = Object.fromEntries(
    Object.entries(step.with ?? {}).map(([name, value]) => [name, filledIn(String(value), known)]),
  );
  const uses = step.uses ?? '';
  if (OURS.test(uses)) return runAction(given, machine);
  const [kind] = uses.split('@');
  switch (kind) {
    case 'actions/checkout':
    case 'actions/cache':
      return [];
    case 'actions/upload-artifact': {
      const path = given.path ?? '';
      mkdirSync(join(machine.artifacts, given.name ?? ''), { recursive: true });
      copyFileSync(join(machine.workspace, path), join(machine.artifacts, given.name ?? '', basename(path)));
      return [];
    }
    case 'actions/download-artifact': {
      const start = (given.pattern ?? '').replace(/\*$/, '');
      for (const name of readdirSync(machine.artifacts).filter(each => each.startsWith(start)))
        for (const file of readdirSync(join(machine.artifacts, name)))
          copyFileSync(join(machine.artifacts, name, file), join(machine.workspace, file));
      return [];
    }
    default:
      throw new Error(`nobody knows what ${uses} does`);
  }
}

/** Bash as the host calls it: it ends at the first command that fails. */
function command(step: Step, known: Known, { workspace, temp }: Machine): RunStep {
  const run = filledIn(step.run ?? '', known);
  const paths = join(temp, 'path');
  const ahead = existsSync(paths) ? readFileSync(paths, 'utf8').split('\n').filter(Boolean).reverse() : [];
  const env = Object.fromEntries(
    Object.entries(step.env ?? {}).map(([name, value]) => [name, filledIn(value, known)]),
  );
  writeFileSync(paths, '', { flag: 'a' });
  const { status, stdout, stderr } = spawnSync(
    'bash',
    ['--noprofile', '--norc', '-eo', 'pipefail', '-c', run],
    {
      cwd: workspace,
      encoding: 'utf8',
      env: {
        ...process.env,
        ...{
          GITHUB_PATH: paths,
          GITHUB_WORKSPACE: workspace,
          RUNNER_TEMP: temp,
          PATH: [...ahead, process.env.PATH].join(':'),
        },
        ...env,
      },
    },
  );
  return { name: step.name ?? run, status, stdout, stderr };
}

function filledIn(text: string, known: Known): string {
  return text.replace(/\$\{\{\s*([\w.]+)\s*\}\}/g, (whole, name: string) => {
    const value = known[name];
    if (value === undefined && !name.startsWith('github.')) throw new Error(`nobody says what ${whole} is`);
    return value ?? '';
  });
}

/** The one kind of condition that the action has. */
function holds(condition: string, known: Known): boolean {
  const [, name = '', value = ''] = /^([\w.]+) != '(.*)'$/.exec(condition) ?? [];
  if (known[name] === undefined) throw new Error(`nobody knows whether ${condition}`);
  return known[name] !== value;
}
