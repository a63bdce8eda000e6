import { noteReader } from '../language/note-reader.ts';
import type { Span } from '../language/syntax.ts';
import { type WorkingComment, workingComments } from '../language/working-comments.ts';
import { type BlockGroup, blockGroups, wordsOf } from './block-groups.ts';
import { checkedNote, inOrder } from './check.ts';
import { blockNamesIn, examineStructure } from './examine.ts';
import type { CheckedBlock, CheckedNote, Finding } from './finding.ts';
import { DEFAULT_SETTINGS, type Settings } from './settings.ts';

/** A note that is being written: what did not change since the last check is not checked again. */
export interface NoteSession {
  /** What `checkNote` reports of the note as it stands now. */
  check(text: string): CheckedNote;
}

/** What a check of a group of blocks found, with the places where its parts stood. */
interface KeptGroup {
  readonly starts: readonly number[];
  readonly names: readonly string[];
  readonly findings: readonly Finding[];
  readonly blocks: readonly { readonly name: string | null; readonly claims: number }[];
}

/** Begins to follow one note through its edits; the settings stay the same. */
export function noteSession(settings: Settings = DEFAULT_SETTINGS): NoteSession {
  const read = noteReader();
  let kept: ReadonlyMap<string, KeptGroup> = new Map();
  let words: ReadonlyMap<string, readonly string[]> = new Map();
  return {
    check(text) {
      const structure = read(text);
      const comments = workingComments(text, structure);
      const known = new Map<string, readonly string[]>();
      const wordsIn = (part: string): readonly string[] => {
        const found = known.get(part) ?? words.get(part) ?? wordsOf(part);
        known.set(part, found);
        return found;
      };
      const groups = blockGroups(text, structure.fences, structure.codeSpans, wordsIn).map(group =>
        withWorkings(group, comments),
      );
      const names = blockNamesIn(structure.fences);
      const next = new Map<string, KeptGroup>();
      const findings: Finding[] = [];
      const blocks: CheckedBlock[] = [];
      for (const group of groups) {
        const key = groupKey(text, group);
        const before = kept.get(key) ?? next.get(key);
        const now =
          before !== undefined && mayStay(before, names)
            ? movedTo(before, group, names)
            : checkedGroup(text, group, names, settings);
        next.set(key, now);
        findings.push(...now.findings);
        blocks.push(...checkedBlocks(text, group, now, settings));
      }
      kept = next;
      words = known;
      const orphans = comments.filter(({ fenceStart }) => fenceStart === null);
      const rest = { fences: [], codeSpans: [], problems: structure.problems ?? [] };
      findings.push(
        ...checkedNote(examineStructure(text, rest, { blockNames: names, comments: orphans, settings }))
          .findings,
      );
      return {
        blocks: blocks.sort((a, b) => a.span.start - b.span.start),
        findings: inOrder(findings),
      };
    },
  };
}

/** Blocks that belong together, with the workings below them. */
interface Group extends BlockGroup {
  readonly workings: readonly WorkingComment[];
}

function withWorkings(group: BlockGroup, comments: readonly WorkingComment[]): Group {
  if (comments.length === 0) return { ...group, workings: comments };
  const starts = new Set(group.fences.map(fence => fence.span.start));
  return {
    ...group,
    workings: comments.filter(({ fenceStart }) => fenceStart !== null && starts.has(fenceStart)),
  };
}

/** All that the findings of a group rest on, but for the names of other blocks. */
function groupKey(text: string, { fences, codeSpans, workings }: Group): string {
  return [
    ...fences.map(({ span, prefix }) => `${prefix}${text.slice(span.start, span.end)}`),
    ...codeSpans.map(span => span.text),
    ...workings.map(({ opening, trouble }) => `${text.slice(opening.start, opening.end)}${trouble ?? ''}`),
  ].join('\0');
}

/** A reference to no block is answered with the blocks that there are. */
function mayStay({ names, findings }: KeptGroup, now: readonly string[]): boolean {
  return !findings.some(finding => finding.rule === 'unknown-block') || names.join() === now.join();
}

function startsOf({ fences, codeSpans, workings }: Group): readonly number[] {
  return [
    ...fences.map(fence => fence.span.start),
    ...codeSpans.map(span => span.start),
    ...workings.map(comment => comment.opening.start),
  ];
}

function checkedGroup(text: string, group: Group, names: readonly string[], settings: Settings): KeptGroup {
  const known = { blockNames: names, comments: group.workings, settings };
  const { findings, blocks } = checkedNote(examineStructure(text, group, known));
  return {
    starts: startsOf(group),
    names,
    // Text that was cut out of the note would keep the whole of it in memory, in every version that it had.
    findings: JSON.parse(JSON.stringify(findings)) as readonly Finding[],
    blocks: blocks.map(({ name, claims }) => ({ name, claims })),
  };
}

/** The same group at another place of the note. */
function movedTo(before: KeptGroup, group: Group, names: readonly string[]): KeptGroup {
  const starts = startsOf(group);
  if (starts.every((start, index) => start === before.starts[index])) return { ...before, names };
  const moves = before.starts
    .map((from, index) => ({ from, by: starts[index]! - from }))
    .sort((a, b) => a.from - b.from);
  const moved = ({ start, end }: Span): Span => {
    const by = moves.findLast(({ from }) => from <= start)?.by ?? moves[0]!.by;
    return { start: start + by, end: end + by };
  };
  return { ...before, starts, names, findings: before.findings.map(finding => movedFinding(finding, moved)) };
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
  text: string,
  group: Group,
  { blocks }: KeptGroup,
  settings: Settings,
): readonly CheckedBlock[] {
  const known = { blockNames: [], comments: [], settings };
  return blocks.map((block, index) => ({
    ...block,
    span: group.fences[index]!.span,
    get quantities() {
      return checkedNote(examineStructure(text, group, known)).blocks[index]!.quantities;
    },
  }));
}
