import type { Settings } from '../checks/settings.ts';
import { RULE_NAMES } from '../language/rule-names.ts';
import { editDistance } from '../language/terms.ts';
import { faultOfIgnored } from './ignored-notes.ts';
import { type Choice, SETTINGS, SEVERITIES, type Setting } from './setting-table.ts';

/** Some settings, with what is wrong with the others. */
export interface SettingsRead {
  readonly settings: Partial<Settings>;
  readonly troubles: readonly SettingTrouble[];
}

/** What is wrong with a value; `at` leads to it from the outside, and says whether its name or what it holds is meant. */
export interface SettingTrouble {
  readonly path: readonly (string | number)[];
  readonly at: 'name' | 'value';
  /** One breath, no final stop. */
  readonly message: string;
}

/**
 * Takes settings out of a value that somebody typed. What is not right is said and left out, and the rest holds.
 *
 * `strict` complains of names that are no settings: a file holds nothing else, an editor's section may. `folder` is the
 * whole path of the one that patterns are counted from, where that is known.
 */
export function readSettings(value: unknown, strict: boolean, folder: string | null = null): SettingsRead {
  if (!isObject(value))
    return {
      settings: {},
      troubles: strict ? [trouble([], 'value', 'a configuration is an object of settings: `{ … }`')] : [],
    };
  const settings: Record<string, unknown> = {};
  const troubles: SettingTrouble[] = [];
  for (const [name, held] of Object.entries(value)) {
    const setting = SETTINGS.find(each => each.name === name);
    if (setting !== undefined) {
      const read = settingValue(setting, held, { troubles, folder });
      if (read !== undefined) settings[name] = read;
    } else if (strict && name !== '$schema')
      troubles.push(
        trouble(
          [name],
          'name',
          unknown(
            name,
            'setting',
            SETTINGS.map(each => each.name),
          ),
        ),
      );
  }
  return { settings: settings as Partial<Settings>, troubles };
}

interface Reading {
  readonly troubles: SettingTrouble[];
  readonly folder: string | null;
}

/** A setting's value where it is one that the setting may have; else undefined, and why. */
function settingValue({ name, holds }: Setting, held: unknown, reading: Reading): unknown {
  const { troubles } = reading;
  switch (holds.kind) {
    case 'choice':
      if (holds.choices.some(({ value }) => value === held) || (held === null && holds.orNone)) return held;
      troubles.push(trouble([name], 'value', `${name} has to be ${listed(holds.choices)}${found(held)}`));
      return undefined;
    case 'switch':
      if (typeof held === 'boolean') return held;
      troubles.push(trouble([name], 'value', `${name} has to be true or false${found(held)}`));
      return undefined;
    case 'patterns':
      return patterns(name, held, reading);
    case 'rules':
      return rules(name, held, troubles);
  }
}

/** Longer lists and longer patterns are a mistake, or a trap. */
const MOST_PATTERNS = 500;
const LONGEST_PATTERN = 1000;

function patterns(name: string, held: unknown, { troubles, folder }: Reading): readonly string[] | undefined {
  if (!Array.isArray(held)) {
    troubles.push(
      trouble([name], 'value', `${name} has to be a list of patterns: \`["drafts/"]\`${found(held)}`),
    );
    return undefined;
  }
  if (held.length > MOST_PATTERNS)
    troubles.push(trouble([name], 'value', `${name} may hold ${MOST_PATTERNS} patterns at most`));
  return held.slice(0, MOST_PATTERNS).filter((pattern, index): pattern is string => {
    const message = faultOfPattern(pattern, folder);
    if (message === null) return true;
    troubles.push(trouble([name, index], 'value', message));
    return false;
  });
}

function faultOfPattern(pattern: unknown, folder: string | null): string | null {
  if (typeof pattern !== 'string' || pattern === '')
    return `a pattern is a piece of text that names notes${found(pattern)}`;
  return pattern.length > LONGEST_PATTERN
    ? `a pattern may have ${LONGEST_PATTERN} signs at most`
    : faultOfIgnored(pattern, folder);
}

function rules(name: string, held: unknown, troubles: SettingTrouble[]): object | undefined {
  if (!isObject(held)) {
    troubles.push(
      trouble(
        [name],
        'value',
        `${name} has to be an object with a severity for each rule: \`{ "stated-precision": "off" }\`${found(held)}`,
      ),
    );
    return undefined;
  }
  const severities: Record<string, unknown> = {};
  for (const [rule, severity] of Object.entries(held)) {
    if (!(RULE_NAMES as readonly string[]).includes(rule))
      troubles.push(trouble([name, rule], 'name', unknown(rule, 'rule', RULE_NAMES)));
    else if (SEVERITIES.some(({ value }) => value === severity)) severities[rule] = severity;
    else
      troubles.push(
        trouble([name, rule], 'value', `${rule} has to be ${listed(SEVERITIES)}${found(severity)}`),
      );
  }
  return severities;
}

function trouble(path: SettingTrouble['path'], at: SettingTrouble['at'], message: string): SettingTrouble {
  return { path, at, message };
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** `error, warning or off`. */
function listed(choices: readonly Choice[]): string {
  const words = choices.map(({ value }) => value);
  return `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
}

const LONGEST_QUOTE = 40;

/** What stands there instead. */
function found(held: unknown): string {
  const text = JSON.stringify(held) ?? 'nothing';
  return `, not ${text.length > LONGEST_QUOTE ? `${text.slice(0, LONGEST_QUOTE)}…` : text}`;
}

/** Says that there is no such name, and which one is nearest. */
function unknown(typed: string, what: string, names: readonly string[]): string {
  const quoted = typed.length > LONGEST_QUOTE ? `${typed.slice(0, LONGEST_QUOTE)}…` : typed;
  const near = nearest(typed, names);
  const hint =
    near !== null
      ? `${near} is likely meant`
      : what === 'setting'
        ? `the settings are ${names.slice(0, -1).join(', ')} and ${names.at(-1)}`
        : '`leastwise explain` lists all rules';
  return `there is no ${what} ${quoted === '' ? 'without a name' : quoted}; ${hint}`;
}

/** A third of a name may be mistyped. */
function nearest(typed: string, names: readonly string[]): string | null {
  if (typed.length > LONGEST_QUOTE) return null;
  const plain = (name: string) => name.toLowerCase().replace(/[\s_-]+/g, '');
  let best: { readonly name: string; readonly distance: number } | null = null;
  for (const name of names) {
    const most = Math.max(1, Math.floor(name.length / 3));
    const distance = editDistance(plain(typed), plain(name), most);
    if (distance <= most && (best === null || distance < best.distance)) best = { name, distance };
  }
  return best?.name ?? null;
}
