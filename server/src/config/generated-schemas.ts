import { RULES } from '../checks/all.ts';
import { reportSchema } from './report-schema.ts';
import { settingsSchemas } from './settings-schema.ts';

/** The schemas from the declarations as they are now, by the names of their files: of the settings, and of the report for programs. */
export function generatedSchemas(): ReadonlyMap<string, string> {
  return new Map([...settingsSchemas(RULES), ['leastwise.report.schema.json', reportSchema()]]);
}
