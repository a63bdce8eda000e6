import { Ajv } from 'ajv';
import addFormats from 'ajv-formats';
import { projectText } from './project-files.ts';

/** What is wrong with a document, held to the schema in a file of the project; empty where nothing is. */
export type Validation = (document: unknown) => readonly string[];

/** A validation against a schema of the project. Unknown words in a schema are refused where it is ours. */
export function validationBy(path: string, isOurs: boolean): Validation {
  const { $schema, id, ...schema } = JSON.parse(projectText(path)) as Record<string, unknown>;
  // The edition of the schema's own language differs in words only that ours do not use, and in `id`.
  const ajv = new Ajv({ strict: isOurs, allowUnionTypes: true, allErrors: true, unicodeRegExp: isOurs });
  addFormats.default(ajv);
  const validate = ajv.compile(schema);
  return document =>
    validate(document)
      ? []
      : (validate.errors ?? []).map(
          error => `${error.instancePath}: ${error.message} ${JSON.stringify(error.params)}`,
        );
}
