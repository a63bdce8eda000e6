import { noteReader, unplacedFences } from '../language/note-reader.ts';
import { asNoteText, type NoteText } from '../language/note-text.ts';
import { movedFence } from '../language/own-fence.ts';
import { type Fence, type NoteStructure, type Span, spanOf } from '../language/syntax.ts';
import { type WorkingComment, workingComments } from '../language/working-comments.ts';
import { type BlockGroup, blockGrouper, type GroupNumbers, isSameList, numbered } from './block-groups.ts';
import { checkedNote, inOrder } from './check.ts';
import { checkedBlock } from './checked-block.ts';
import { blockNamesIn, examineStructure } from './examine.ts';
import type { CheckedBlock, CheckedNote, Finding } from './finding.ts';
import { DEFAULT_SETTINGS, type Settings } from './settings.ts';

/** A note that is being written: what did not change since the last check is not checked again. */
export interface NoteSession {
  /** What `checkNote` reports of the note as it stands now. */
  check(text: string | NoteText): CheckedNote;
}

/** What a check of a group of blocks found, with the places where its parts stood. */
interface KeptGroup {
  readonly starts: readonly number[];
  /** The names of the note's blocks, where a finding tells them; else null. */
  readonly names: readonly string[] | null;
  readonly findings: readonly Finding[];
  readonly blocks: readonly { readonly name: string | null; readonly claims: number }[];
}

/** So many results are remembered by what was checked: who takes back an edit finds what was there before. */
const REMEMBERED = 2000;

/**
 * Begins to follow one note through its edits; the settings stay the same. `read` gives the note's structure, with the
 * same fence for a block as long as neither it nor its place changes.
 */
export function noteSession(
  settings: Settings = DEFAULT_SETTINGS,
  read: (note: NoteText) => NoteStructure = noteReader(),
): NoteSession {
  const groupsIn = blockGrouper();
  const kept = keptGroups();
  return {
    check(note) {
      const text = asNoteText(note);
      const structure = read(text);
      const comments = structure.comments === undefined ? [] : workingComments(text.whole(), structure);
      const names = onDemand(() => blockNamesIn(structure.fences));
      const contents = unplacedFences(structure.fences);
      const groups = groupsIn(text, structure, contents);
      const findings: Finding[] = [];
      const worked = new Set(comments.map(({ fenceStart }) => fenceStart));
      const isWorked = ({ fences }: GroupNumbers): boolean =>
        worked.size > 0 && fences.some(number => worked.has(structure.fences[number]!.span.start));
      const groupAt = (numbers: GroupNumbers): Group => ({
        ...withWorkings(numbered(structure, numbers), comments),
        contents: numbers.fences.map(number => contents[number]!),
      });
      const checked = groups.map(numbers => {
        const quiet = isWorked(numbers) ? null : kept.quiet(contents, numbers);
        if (quiet !== null) return quiet;
        const group = groupAt(numbers);
        const before = kept.of(text, group);
        const stays = before !== null && mayStay(before, names);
        const now = stays ? movedTo(before, group) : checkedGroup(text, group, names(), settings);
        if (!stays) kept.remember(text, group, now);
        kept.keep(text, group, now);
        for (const finding of now.findings) findings.push(finding);
        return now;
      });
      findings.push(...outsideBlocks(text, structure, comments, names, settings));
      // Only programs ask for them.
      const blocks = onDemand(() =>
        checked
          .flatMap((found, index) => checkedBlocks(text, groupAt(groups[index]!), found, settings))
          .sort((a, b) => a.span.start - b.span.start),
      );
      return new SessionCheck(inOrder(findings), blocks);
    },
  };
}

/** A class, for V8 keeps all that the getter of a single object refers to until it collects everything. */
class SessionCheck implements CheckedNote {
  readonly findings: readonly Finding[];
  readonly #blocks: () => readonly CheckedBlock[];

  constructor(findings: readonly Finding[], blocks: () => readonly CheckedBlock[]) {
    this.findings = findings;
    this.#blocks = blocks;
  }

  get blocks(): readonly CheckedBlock[] {
    return this.#blocks();
  }
}

function onDemand<Value>(work: () => Value): () => Value {
  let done: { readonly value: Value } | null = null;
  return () => {
    done ??= { value: work() };
    return done.value;
  };
}

/** What is found of workings that belong to no block, and of parts that could not be read. */
function outsideBlocks(
  text: NoteText,
  { problems = [] }: NoteStructure,
  comments: readonly WorkingComment[],
  names: () => readonly string[],
  settings: Settings,
): readonly Finding[] {
  const orphans = comments.filter(({ fenceStart }) => fenceStart === null);
  if (orphans.length === 0 && problems.length === 0) return [];
  const rest = { fences: [], codeSpans: [], problems };
  return checkedNote(
    examineStructure(text.whole(), rest, { blockNames: names(), comments: orphans, settings }),
  ).findings;
}

/** Remembers what was found in groups: by their blocks as long as these stay the same, and for a while by their texts. */
function keptGroups(): {
  /** What is known of blocks with nothing beside them in which nothing was found: it holds wherever they stand. */
  quiet(contents: readonly Fence[], numbers: GroupNumbers): KeptGroup | null;
  of(text: NoteText, group: Group): KeptGroup | null;
  keep(text: NoteText, group: Group, found: KeptGroup): void;
  remember(text: NoteText, group: Group, found: KeptGroup): void;
} {
  /** By the first block of each group. */
  const byBlock = new WeakMap<Fence, KeptByBlock>();
  const byText = new Map<string, KeptGroup>();
  return {
    quiet(contents, { fences, codeSpans }) {
      if (codeSpans.length > 0) return null;
      const known = byBlock.get(contents[fences[0]!]!);
      if (known === undefined || known.beside !== '' || known.found.findings.length > 0) return null;
      if (known.contents.length !== fences.length) return null;
      for (let index = 0; index < fences.length; index++)
        if (known.contents[index] !== contents[fences[index]!]) return null;
      return known.found;
    },
    of(text, group) {
      const known = byBlock.get(group.contents[0]!);
      return known !== undefined && isSame(known, text, group)
        ? known.found
        : (byText.get(groupKey(text, group)) ?? null);
    },
    keep(text, group, found) {
      const { contents } = group;
      const known = byBlock.get(contents[0]!);
      if (known?.found === found && isSame(known, text, group)) return;
      byBlock.set(contents[0]!, { contents, beside: textsBeside(text, group), found });
    },
    remember(text, group, found) {
      byText.set(groupKey(text, group), found);
      if (byText.size > REMEMBERED) byText.delete(byText.keys().next().value!);
    },
  };
}

interface KeptByBlock {
  readonly contents: readonly Fence[];
  readonly beside: string;
  readonly found: KeptGroup;
}

function isSame({ contents, beside }: KeptByBlock, text: NoteText, group: Group): boolean {
  return isSameList(contents, group.contents) && beside === textsBeside(text, group);
}

/** Blocks that belong together, with the workings below them. */
interface Group extends BlockGroup {
  readonly workings: readonly WorkingComment[];
  /** Each block wherever it stands. */
  readonly contents: readonly Fence[];
}

function withWorkings(group: BlockGroup, comments: readonly WorkingComment[]): Omit<Group, 'contents'> {
  if (comments.length === 0) return { ...group, workings: comments };
  const starts = new Set(group.fences.map(fence => fence.span.start));
  return {
    ...group,
    workings: comments.filter(({ fenceStart }) => fenceStart !== null && starts.has(fenceStart)),
  };
}

/** All that the findings of a group rest on, but for the names of other blocks; a text of its own, not cut out of the note. */
function groupKey(text: NoteText, group: Group): string {
  const fences = group.fences.map(({ span, prefix }) => `${prefix}${text.slice(span.start, span.end)}`);
  return [...fences, textsBeside(text, group)].join('\0');
}

function textsBeside(text: NoteText, { codeSpans, workings }: Group): string {
  if (codeSpans.length === 0 && workings.length === 0) return '';
  return [
    ...codeSpans.map(span => span.text),
    ...workings.map(({ opening, trouble }) => `${text.slice(opening.start, opening.end)}${trouble ?? ''}`),
    '',
  ].join('\0');
}

/** A reference to no block is answered with the blocks that there are. */
function mayStay({ names }: KeptGroup, now: () => readonly string[]): boolean {
  return names === null || names.join() === now().join();
}

function startsOf({ fences, codeSpans, workings }: Group): readonly number[] {
  return [
    ...fences.map(fence => fence.span.start),
    ...codeSpans.map(span => span.start),
    ...workings.map(comment => comment.opening.start),
  ];
}

function checkedGroup(text: NoteText, group: Group, names: readonly string[], settings: Settings): KeptGroup {
  const known = { blockNames: names, comments: group.workings, settings };
  const { piece, start, fences } = pieceAround(text, group);
  const { findings, blocks } = checkedNote(examineStructure(piece, { ...group, fences }, known));
  // Text that was cut out of the note would keep the whole of it in memory, in every version that it had.
  const own = JSON.parse(JSON.stringify(findings)) as readonly Finding[];
  return {
    starts: startsOf(group),
    names: findings.some(finding => finding.rule === 'unknown-block') ? names : null,
    findings:
      start === 0
        ? own
        : own.map(finding => movedFinding(finding, span => spanOf(span.start + start, span.end + start))),
    blocks: blocks.map(({ name, claims }) => ({ name, claims })),
  };
}

/** As much of the note is put together for the blocks of a group as they take with a line around them. */
const BESIDE = 200;
const LONGEST_PIECE = 100_000;

/** The part of the note in which a group stands, and its blocks there; the whole note where more belongs to it than blocks. */
function pieceAround(
  text: NoteText,
  { fences, codeSpans, workings }: Group,
): { readonly piece: string; readonly start: number; readonly fences: readonly Fence[] } {
  const start = Math.max(0, fences[0]!.span.start - BESIDE);
  const end = Math.min(text.length, fences.at(-1)!.span.end + BESIDE);
  if (codeSpans.length > 0 || workings.length > 0 || LONGEST_PIECE < end - start)
    return { piece: text.whole(), start: 0, fences };
  return { piece: text.slice(start, end), start, fences: fences.map(fence => movedFence(fence, -start)) };
}

/** The same group at another place of the note. */
function movedTo(before: KeptGroup, group: Group): KeptGroup {
  const starts = startsOf(group);
  if (starts.every((start, index) => start === before.starts[index])) return before;
  // Where nothing was found, nobody asks where.
  if (before.findings.length === 0) return before;
  const moves = before.starts
    .map((from, index) => ({ from, by: starts[index]! - from }))
    .sort((a, b) => a.from - b.from);
  const moved = ({ start, end }: Span): Span => {
    const by = moves.findLast(({ from }) => from <= start)?.by ?? moves[0]!.by;
    return { start: start + by, end: end + by };
  };
  return { ...before, starts, findings: before.findings.map(finding => movedFinding(finding, moved)) };
}

function movedFinding(finding: Finding, moved: (span: Span) => Span): Finding {
  return {
    ...finding,
    span: moved(finding.span),
    cause: finding.cause && moved(finding.cause),
    related: finding.related.map(each => ({ ...each, span: moved(each.span) })),
    fixes: finding.fixes.map(fix => ({
      ...fix,
      edits: fix.edits.map(edit => ({ ...edit, span: moved(edit.span) })),
    })),
  };
}

function checkedBlocks(
  text: NoteText,
  group: Group,
  { blocks }: KeptGroup,
  settings: Settings,
): readonly CheckedBlock[] {
  const known = { blockNames: [], comments: [], settings };
  return blocks.map((block, index) =>
    checkedBlock(
      { ...block, span: group.fences[index]!.span },
      () => checkedNote(examineStructure(text.whole(), group, known)).blocks[index]!.quantities,
    ),
  );
}
