import { DEFAULT_SETTINGS, type Settings } from '../checks/settings.ts';

/** Settings that hold together: each as the last of the parts that name it has it, the rules rule by rule. */
export function mergedSettings(...parts: readonly Partial<Settings>[]): Settings {
  let settings = DEFAULT_SETTINGS;
  for (const part of parts) settings = { ...settings, ...part, rules: { ...settings.rules, ...part.rules } };
  return settings;
}
