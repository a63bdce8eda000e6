import { DEFAULT_SETTINGS, type Settings } from '../checks/settings.ts';

/** A word that a setting may have, and what it means. */
export interface Choice {
  readonly value: string;
  readonly says: string;
}

/** What a setting may hold. */
export type SettingKind =
  /** One of a few words; with `orNone` also nothing at all, which leaves the choice to leastwise. */
  | { readonly kind: 'choice'; readonly choices: readonly Choice[]; readonly orNone: boolean }
  | { readonly kind: 'switch' }
  | { readonly kind: 'patterns' }
  /** How grave the findings of each rule are. */
  | { readonly kind: 'rules' };

/** A setting as plain data: the check of what is typed and both schemas are made of it. */
export interface Setting {
  readonly name: keyof Settings;
  /** What it is for, in Markdown, as an editor shows it. */
  readonly description: string;
  readonly holds: SettingKind;
}

/** How grave a finding may be set to be. */
export const SEVERITIES: readonly Choice[] = [
  { value: 'error', says: 'something that has to be mended' },
  { value: 'warning', says: 'something to look at' },
  { value: 'off', says: 'not reported' },
];

/** Every setting by its name, the same in the editor and in a configuration file. */
export const SETTINGS: readonly Setting[] = [
  {
    name: 'rules',
    description:
      'How grave the findings of a rule are: `error`, `warning`, or `off` for a rule that is not wanted. A rule that is not named stays as it is.',
    holds: { kind: 'rules' },
  },
  {
    name: 'errorRule',
    description: 'The error that a reading carries where its block records no `error rule`.',
    holds: {
      kind: 'choice',
      orNone: false,
      choices: [
        { value: 'least count', says: 'one least count either way' },
        { value: 'half the least count', says: 'half a least count either way' },
        { value: 'mean absolute error', says: 'the mean distance of the readings from their mean' },
        { value: 'rectangular', says: 'half a least count, anywhere within it alike' },
        {
          value: 'standard deviation of the mean',
          says: 'the scatter of the readings over the root of their number',
        },
      ],
    },
  },
  {
    name: 'way',
    description:
      'How a working reads a vernier. Where nothing is chosen: by the least count where that holds, else by the scales.',
    holds: {
      kind: 'choice',
      orNone: true,
      choices: [
        { value: 'least-count', says: 'the main scale reading and so many least counts' },
        { value: 'scales', says: 'the positions of the two lines that coincide' },
      ],
    },
  },
  {
    name: 'rounding',
    description: 'Which way a half may go where a value is rounded.',
    holds: {
      kind: 'choice',
      orNone: false,
      choices: [
        { value: 'either', says: 'away from zero or to the even digit, since both are taught' },
        { value: 'away-from-zero', says: '0.345 becomes 0.35, and -0.345 becomes -0.35' },
        { value: 'to-even', says: '0.345 becomes 0.34, and 0.355 becomes 0.36' },
      ],
    },
  },
  {
    name: 'ignore',
    description:
      'Notes that are left out when a folder or a workspace is checked, as patterns relative to this file (or to the workspace folder): `drafts/`, `**/*.draft.md`. `!drafts/keep.md` takes a note back in.',
    holds: { kind: 'patterns' },
  },
  {
    name: 'student',
    description:
      'For somebody who is still to work it out: findings say what to look at again, and no value is given away anywhere.',
    holds: { kind: 'switch' },
  },
];

/** What a setting is where nobody has set it. */
export function usualValue({ name }: Setting): Settings[keyof Settings] {
  return DEFAULT_SETTINGS[name];
}
