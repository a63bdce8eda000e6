import { RULES } from '../checks/all.ts';
import { settingsSchemas } from './settings-schema.ts';

/** The schemas of the settings from the declarations as they are now, by the names of their files. */
export function generatedSchemas(): ReadonlyMap<string, string> {
  return settingsSchemas(RULES);
}
