import { RULE_NAMES } from '../language/rule-names.ts';

/**
 * The schema of the document that `leastwise check --format json` writes, as the text of a file. It allows nothing
 * that is not told here, so that a program can rely on it, and we cannot forget it.
 */
export function reportSchema(): string {
  const schema = {
    $schema: 'http://json-schema.org/draft-07/schema#',
    title: 'Report of leastwise',
    description: 'What `leastwise check --format json` writes: the facts of the notes for other programs.',
    ...object(
      {
        version: { const: 1, description: 'Another number where a field changes its meaning.' },
        notes: list('#/definitions/note', 'In the order in which they were named or found.'),
        summary: { $ref: '#/definitions/summary' },
      },
      { share: { $ref: '#/definitions/share' } },
    ),
    definitions: {
      note: object({
        path: {
          type: 'string',
          description: 'As it was named or found, with slashes; - for standard input.',
        },
        blocks: list('#/definitions/block', 'In the order of the note.'),
        findings: list('#/definitions/finding', 'In the order of their places.'),
      }),
      block: object({
        name: orNull('string', 'Null for a block without a name.'),
        line: line('The line in which its fence opens.'),
        quantities: list('#/definitions/quantity', 'All that the block determines, asked for or not.'),
      }),
      quantity: object({
        term: orNull('string', 'The term of the trade; null for a quantity of the block’s own.'),
        name: orNull('string', 'The symbol or the words of a quantity of the block’s own.'),
        row: { $ref: '#/definitions/row' },
        line: line('Where it is stated; the block’s line where no line does.'),
        value: {
          type: 'string',
          description:
            'An exact fraction in `unit`; a decimal of 15 figures where `exact` is false; a formula in a block with letters.',
        },
        unit: orNull('string', 'In plain letters, as in um, deg, g/cm^3; null for a mere count.'),
        exact: { type: 'boolean' },
        shown: { type: 'string', description: 'The value as people write it, with its unit.' },
        source: { enum: ['computed', 'given', 'observed'] },
      }),
      finding: object(
        {
          rule: { enum: RULE_NAMES },
          severity: { enum: ['error', 'warning'] },
          message: { type: 'string', description: 'What is stated, what is right and why, in one breath.' },
          block: orNull('string', 'The name of the block.'),
          term: orNull('string', 'The term that the finding is about.'),
          row: { $ref: '#/definitions/row' },
          ...STRETCH,
          stated: orNull('string', 'The value that the note states.'),
          computed: orNull('string', 'The value that its records make it.'),
          slip: orNull(
            'string',
            'The slip that gives the stated number on the same data; null where none is known.',
          ),
          cause: { ...line('The line where the trouble began.'), type: ['integer', 'null'] },
          fixes: list('#/definitions/fix', 'Ways to mend it, the likeliest first.'),
        },
        {
          waived: orNull(
            'string',
            'With --waived: the reason of the waiver that turned the finding off; null for a finding that counts.',
          ),
        },
      ),
      fix: object({
        title: { type: 'string' },
        edits: list('#/definitions/edit', 'All of them belong together; none touches another.'),
      }),
      edit: object({ ...STRETCH, newText: { type: 'string' } }),
      row: {
        type: ['integer', 'string', 'null'],
        description: 'A table row’s number from 1, or its label; null outside a table.',
      },
      summary: object(
        {
          notes: count('Notes that were checked.'),
          blocks: count('Measurement blocks in them.'),
          claims: count('Claims in these, and in the prose about them.'),
          errors: count('Findings that are errors.'),
          warnings: count('Findings that are warnings, shown or not.'),
        },
        {
          waived: count('With --waived: findings that were waived.'),
          old: count(
            'With --baseline: findings that it holds back; they are in no list and count nowhere else.',
          ),
        },
      ),
      share: {
        ...object({
          index: { type: 'integer', minimum: 1, description: 'Which share it is, counted from 1.' },
          of: { type: 'integer', minimum: 1, description: 'How many shares there are.' },
          bank: orNull(
            'string',
            'A digest of all that the shares of a bank have in common; null for a run that was interrupted.',
          ),
          places: count('Notes that were dealt to this share.'),
          without: {
            type: 'array',
            items: { type: 'array', items: { type: 'integer', minimum: 0 }, minItems: 2, maxItems: 2 },
            description: 'Of these the ones that the report does not hold: from which place on, how many.',
          },
          troubles: {
            type: 'array',
            items: { type: 'string' },
            description: 'Sentences about what could not be done.',
          },
          seal: { type: 'string', description: 'A digest of the document before it.' },
        }),
        description:
          'With --shard: of which share of a bank this report is, so that `leastwise merge` can join them.',
      },
    },
  };
  return `${JSON.stringify(schema, null, 2)}\n`;
}

const STRETCH = {
  line: line('Counted from 1.'),
  column: line('Counted from 1, in UTF-16 units.'),
  endLine: line('The line of the first place behind it.'),
  endColumn: line('The column of the first place behind it.'),
};

/** An object that has all of the first fields, may have the second ones, and has no others. */
function object(properties: object, optional: object = {}): object {
  return {
    type: 'object',
    properties: { ...properties, ...optional },
    required: Object.keys(properties),
    additionalProperties: false,
  };
}

function list(definition: string, description: string): object {
  return { type: 'array', items: { $ref: definition }, description };
}

function line(description: string): object {
  return { type: 'integer', minimum: 1, description };
}

function count(description: string): object {
  return { type: 'integer', minimum: 0, description };
}

function orNull(type: string, description: string): object {
  return { type: [type, 'null'], description };
}
