import type { Severity } from '../checks/finding.ts';
import type { Choice } from './setting-table.ts';
import { SETTINGS, SEVERITIES, type Setting, usualValue } from './setting-table.ts';

/** A rule as the schema tells it. */
export interface RuleWords {
  readonly name: string;
  readonly severity: Severity;
  readonly summary: string;
}

/** The files of the schema by their names: for the configuration file, and for the editor's settings under `leastwise.`. */
export function settingsSchemas(rules: readonly RuleWords[]): ReadonlyMap<string, string> {
  const properties = SETTINGS.map(setting => [setting.name, schemaOf(setting, rules)] as const);
  return new Map([
    [
      'leastwise.config.schema.json',
      asFile({
        $schema: 'http://json-schema.org/draft-07/schema#',
        title: 'Configuration of leastwise',
        description: 'How the notes in this folder, and in the folders below it, are checked.',
        type: 'object',
        properties: Object.fromEntries([
          ['$schema', { type: 'string', description: 'Where this schema stands.' }],
          ...properties,
        ]),
        additionalProperties: false,
      }),
    ],
    [
      'editor-settings.json',
      asFile(
        Object.fromEntries(
          properties.map(([name, schema]) => [`leastwise.${name}`, { scope: 'resource', ...schema }]),
        ),
      ),
    ],
  ]);
}

function asFile(schema: object): string {
  return `${JSON.stringify(schema, null, 2)}\n`;
}

function schemaOf(setting: Setting, rules: readonly RuleWords[]): object {
  const { description, holds } = setting;
  const told = {
    markdownDescription: description,
    description: plain(description),
    default: usualValue(setting),
  };
  switch (holds.kind) {
    case 'choice':
      return {
        type: holds.orNone ? ['string', 'null'] : 'string',
        ...choicesOf(holds.choices, holds.orNone),
        ...told,
      };
    case 'switch':
      return { type: 'boolean', ...told };
    case 'patterns':
      return { type: 'array', items: { type: 'string', minLength: 1 }, ...told };
    case 'rules':
      return {
        type: 'object',
        properties: Object.fromEntries(
          rules.map(({ name, summary, severity }) => [
            name,
            {
              type: 'string',
              ...choicesOf(SEVERITIES, false),
              markdownDescription: `${sentence(summary)} Usually \`${severity}\`.`,
              description: `${plain(sentence(summary))} Usually ${severity}.`,
            },
          ]),
        ),
        additionalProperties: false,
        ...told,
      };
  }
}

function choicesOf(choices: readonly Choice[], orNone: boolean): object {
  const words = choices.map(({ value }) => value);
  const says = choices.map(each => each.says);
  return {
    enum: orNone ? [null, ...words] : words,
    enumDescriptions: orNone ? ['whichever holds', ...says] : says,
  };
}

function sentence(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
}

function plain(markdown: string): string {
  return markdown.replaceAll('`', '');
}
