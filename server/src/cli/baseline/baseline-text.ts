import { countedFindings, type RecordedFinding } from './recorded-finding.ts';

/** The recorded findings of each note, by its path from the folder of the baseline. */
export type RecordedNotes = ReadonlyMap<string, readonly RecordedFinding[]>;

/** What a baseline holds, or why it is none. */
export type BaselineText =
  | { readonly ok: true; readonly notes: Map<string, readonly RecordedFinding[]> }
  | { readonly ok: false; readonly trouble: string };

const FORMAT = 'leastwise-baseline';
const VERSION = 1;

/** A baseline as a file: a finding a line, sorted, so that the same findings always give the same bytes. */
export function baselineText(notes: RecordedNotes): string {
  const lines = [...notes]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .flatMap(([note, findings]) => countedFindings(findings).map(finding => lineOf(note, finding)));
  const list = lines.length === 0 ? '[]' : `[\n${lines.map(line => `    ${line}`).join(',\n')}\n  ]`;
  return `{\n  "format": "${FORMAT}",\n  "version": ${VERSION},\n  "findings": ${list}\n}\n`;
}

function lineOf(note: string, { rule, block, term, row, stated, count }: RecordedFinding): string {
  return JSON.stringify({ note, rule, block, term, row, stated, count });
}

/** Reads a baseline; whatever is not wholly one is refused, so that nothing of somebody else's is written over. */
export function readBaselineText(text: string, shown: string): BaselineText {
  const foreign = `${shown} is not a baseline of leastwise`;
  let facts: unknown;
  try {
    facts = JSON.parse(text.replace(/^\ufeff/, ''));
  } catch {
    return { ok: false, trouble: `${foreign}: it cannot be read as JSON` };
  }
  if (!isObject(facts) || facts.format !== FORMAT)
    return { ok: false, trouble: `${foreign}: its \`format\` is not \`${FORMAT}\`` };
  if (facts.version !== VERSION) {
    const trouble = `${shown} is a baseline of another version (${JSON.stringify(facts.version)}): this leastwise reads version ${VERSION}`;
    return { ok: false, trouble };
  }
  if (!Array.isArray(facts.findings))
    return { ok: false, trouble: `${shown} is damaged: its \`findings\` are no list` };
  const notes = new Map<string, RecordedFinding[]>();
  for (const [at, entry] of facts.findings.entries()) {
    if (!isEntry(entry))
      return { ok: false, trouble: `${shown} is damaged: finding ${at + 1} is incomplete` };
    const { note, ...finding } = entry;
    const its = notes.get(note);
    if (its === undefined) notes.set(note, [finding]);
    else its.push(finding);
  }
  return { ok: true, notes };
}

function isEntry(entry: unknown): entry is RecordedFinding & { readonly note: string } {
  if (!isObject(entry)) return false;
  const { note, rule, block, term, row, stated, count } = entry;
  return (
    typeof note === 'string' &&
    typeof rule === 'string' &&
    [block, term, stated].every(each => each === null || typeof each === 'string') &&
    (row === null || typeof row === 'string' || typeof row === 'number') &&
    Number.isSafeInteger(count) &&
    (count as number) > 0
  );
}

function isObject(facts: unknown): facts is Readonly<Record<string, unknown>> {
  return typeof facts === 'object' && facts !== null && !Array.isArray(facts);
}
