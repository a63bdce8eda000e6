import { declare } from './declare.ts';
import type { Draft } from './draft.ts';
import type { FenceHeader } from './fence-header.ts';
import { readErrorRecord } from './interpret-change.ts';
import { interpretNumbers } from './interpret-numbers.ts';
import { interpretProse } from './interpret-prose.ts';
import { interpretStatement } from './interpret-statement.ts';
import { interpretTable } from './interpret-table.ts';
import { letteredChoices } from './lettered-choices.ts';
import { readListsAsMeans } from './list-as-value.ts';
import type { Measurement } from './measurement.ts';
import { nameTable } from './name-table.ts';
import { blockKey, type Declarations, type NameContext, type NoteNames, speaksOf } from './names.ts';
import { numberedChoices } from './numbered-choices.ts';
import type { Block, Statement } from './parser.ts';
import type { Problem } from './problem.ts';
import { type CodeSpan, type Fence, spanOf } from './syntax.ts';
import { withSureComments } from './unread-sentence.ts';

/** A parsed block with its header and what it gives names to. */
export interface DeclaredBlock {
  readonly block: Block;
  readonly header: FenceHeader;
  readonly declarations: Declarations;
}

/**
 * What all blocks of a note mean: terms resolved, formulas read, references checked.
 *
 * Names are gathered from all blocks first, so that a block may refer to one below it. Whatever cannot be read is a
 * problem of its block; the rest of the block, and all other blocks, are still read. `blockNames` are the blocks to
 * tell somebody who names none of them; where only a part of a note is read these are more than are given.
 */
export function interpretNote(
  blocks: readonly { readonly block: Block; readonly header: FenceHeader }[],
  codeSpans: readonly CodeSpan[] = [],
  blockNames: readonly string[] = namesOfBlocks(blocks.map(({ header }) => header)),
): readonly Measurement[] {
  const declared = blocks.map(
    ({ block, header }): DeclaredBlock => ({ block, header, declarations: declare(block, header) }),
  );
  const note = new Map<string, Declarations>();
  const doubled: Problem[][] = [];
  const first = new Map<string, FenceHeader>();
  for (const [index, { header, declarations }] of declared.entries()) {
    doubled[index] = [];
    if (header.name === null) continue;
    const key = blockKey(header.name);
    const before = first.get(key);
    if (before === undefined) {
      note.set(key, declarations);
      first.set(key, header);
    } else if (header.nameSpan !== null && before.nameSpan !== null) {
      doubled[index].push({
        rule: 'duplicate-name',
        span: header.nameSpan,
        message: `another block of this note is already called ${header.name}; references mean the first one`,
        fixes: [],
        related: [{ span: before.nameSpan, message: `the first block called ${header.name}` }],
      });
    }
  }
  const measurements = declared.map((block, index) => interpret(block, note, blockNames, doubled[index]!));
  const prose = interpretProse(codeSpans, note, names =>
    emptyDraft(PROSE_FENCE, NO_HEADER, names, blockNames, []),
  );
  return prose === null ? measurements : [...measurements, finished(prose)];
}

/** The names of a note's blocks as typed, each once, in the order of the note. */
export function namesOfBlocks(headers: readonly FenceHeader[]): readonly string[] {
  const names = new Map<string, string>();
  for (const { name } of headers) {
    if (name !== null && !names.has(blockKey(name))) names.set(blockKey(name), name);
  }
  return [...names.values()];
}

function interpret(
  { block, header, declarations }: DeclaredBlock,
  note: NoteNames,
  blockNames: readonly string[],
  problems: readonly Problem[],
): Measurement {
  const draft = emptyDraft(block.fence, header, { here: declarations, note }, blockNames, [
    ...header.problems,
    ...problems,
    ...block.problems,
  ]);
  draft.choices = new Map([...numberedChoices(block.statements), ...letteredChoices(block.statements)]);
  draft.readAgain = statement => readInto(draft, statement);
  for (const statement of block.statements) readInto(draft, statement);
  for (const record of draft.errorRecords) readErrorRecord(draft, record);
  readListsAsMeans(draft);
  return finished(draft);
}

function readInto(draft: Draft, statement: Statement): void {
  if (statement.kind === 'table') interpretTable(draft, statement.lines);
  else if (!interpretNumbers(draft, statement)) interpretStatement(draft, statement);
}

function emptyDraft(
  fence: Fence,
  header: FenceHeader,
  names: NameContext,
  blockNames: readonly string[],
  problems: Problem[],
): Draft {
  return {
    fence,
    header,
    names,
    blockNames,
    table: nameTable(names),
    problems,
    instrument: null,
    scales: [],
    counts: new Map(),
    runsBackward: false,
    range: null,
    readings: new Map(),
    rows: [],
    columns: new Set(),
    closed: [],
    givens: new Map(),
    own: new Map(),
    errorRecords: [],
    errorRule: null,
    coverageFactor: null,
    uses: null,
    claims: [],
    sums: [],
    typedAsClaims: [],
    find: null,
    options: [],
    choices: new Map(),
    answer: null,
    waivers: [],
    recorded: new Map(),
    broken: new Set(),
    unread: new Set(),
    sentences: [],
    halfWaived: new Set(),
    rowEdits: [],
    mending: null,
    readAgain: () => {},
    isScrew: speaksOf('screw', names.here, names.note),
    hasVernier: speaksOf('vernier', names.here, names.note),
  };
}

/** What could not be read, as records or as claims. */
function brokenNames(draft: Draft): ReadonlySet<string> {
  for (const { subject, links } of draft.claims) {
    if (!links.some(link => link.content.kind === 'broken')) continue;
    if (subject.kind === 'term') draft.broken.add(subject.term);
    if (subject.kind === 'own') draft.broken.add(subject.name);
    if (subject.kind === 'division') draft.broken.add(subject.division);
  }
  return draft.broken;
}

/** Claims in the prose stand in no fence of their own. */
const PROSE_FENCE: Fence = {
  span: spanOf(0, 0),
  info: '',
  infoSpan: spanOf(0, 0),
  lines: [],
  closed: true,
  closingEnd: null,
  prefix: '',
};
const NO_HEADER: FenceHeader = { isMeasurement: true, name: null, nameSpan: null, problems: [] };

function finished(draft: Draft): Measurement {
  return {
    fence: draft.fence,
    name: draft.header.name,
    nameSpan: draft.header.nameSpan,
    instrument: draft.instrument,
    scales: draft.scales,
    counts: draft.counts,
    runsBackward: draft.runsBackward,
    range: draft.range,
    readings: draft.readings,
    rows: draft.rows,
    columns: draft.columns,
    closed: draft.closed,
    givens: draft.givens,
    own: draft.own,
    symbols: draft.names.here.symbols,
    errorRule: draft.errorRule,
    halves: 'either',
    coverageFactor: draft.coverageFactor,
    claims: draft.claims,
    sums: draft.sums,
    typedAsClaims: draft.typedAsClaims,
    uses: draft.uses,
    subjects: draft.table.subjects,
    question: { find: draft.find, options: draft.options, answer: draft.answer },
    waivers: draft.waivers,
    broken: brokenNames(draft),
    unread: draft.unread,
    sentences: new Set(draft.sentences.map(({ may }) => may)),
    halfWaived: draft.halfWaived,
    problems: withSureComments(draft),
  };
}
