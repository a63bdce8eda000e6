import type { NoteCheck } from '../checks/note-check.ts';
import { readNote } from '../language/fences.ts';
import type { Edit } from '../language/problem.ts';
import type { Fence, Span } from '../language/syntax.ts';
import type { Action, ActionContext } from './action.ts';
import { freeBlockName } from './free-block-name.ts';
import { meets } from './places.ts';
import { withReadableBlock } from './readable-block.ts';
import { type SelectedLines, selectedLines } from './selected-lines.ts';
import { withEdits } from './settled-edits.ts';

/** More than this is no solution. */
const MOST_LINES = 400;
const MOST_CHARACTERS = 50_000;

/** As much as tells whether a line beside the selection is blank. */
const MOST_OF_A_LINE = 200;

/**
 * Makes a block of selected lines of prose: a solution that was typed as plain text.
 *
 * What is surely meant is written in the language's form; what cannot be read stays as a comment. On offer where the
 * lines state something.
 */
export function makeBlock({ text, note, span }: ActionContext): readonly Action[] {
  const length = span.end - span.start;
  const selected = 0 < length && length < MOST_CHARACTERS ? selectedLines(text, span) : null;
  if (selected === null || MOST_LINES < selected.texts.length || !isStated(selected)) return [];
  if (blockSpans(note).some(each => meets(each, selected.span))) return [];
  return [
    {
      title: 'Make a block of the selected lines',
      kind: 'refactor.rewrite',
      finding: null,
      isSure: false,
      edits: () => makeBlockEdits(text, note, selected),
    },
  ];
}

function blockSpans({ measurements, fences }: NoteCheck): readonly Span[] {
  return measurements.slice(0, fences).map(({ fence }) => fence.span);
}

function isStated({ texts }: SelectedLines): boolean {
  return texts.some(line => /\d/.test(line) && /[:=≈|]/.test(line));
}

function makeBlockEdits(text: string, note: NoteCheck, selected: SelectedLines): readonly Edit[] {
  const name = freeBlockName(text, selected.span.start, note);
  // Lines far from the margin are code of their own, where no fence can begin, unless a list sets them in.
  for (const lines of [selected, { ...selected, first: selected.blank, others: selected.blank }]) {
    const made = withBlock(text, lines, name);
    if (!isOneMore(made, name, text)) continue;
    const settled = withReadableBlock(made, name, note.settings);
    const behind = text.length - selected.span.end;
    return [{ span: selected.span, newText: settled.slice(selected.span.start, settled.length - behind) }];
  }
  return [];
}

function withBlock(text: string, lines: SelectedLines, name: string): string {
  const { span, first, others, blank, texts } = lines;
  const lineBreak = /\r\n|[\r\n]/.exec(text)?.[0] ?? '\n';
  const longest = Math.max(2, ...texts.flatMap(line => [...line.matchAll(/`+/g)].map(([run]) => run.length)));
  const fence = '`'.repeat(longest + 1);
  const block = [
    `${first}${fence}measurement ${name}`,
    ...texts.map(line => (line === '' ? blank : others + line)),
    `${others}${fence}`,
  ];
  const isBlank = (line: string): boolean => /^[ \t>]*$/.test(line);
  const blankBeside = (line: string): string => (/^[ \t]*>/.test(line) ? blank : '');
  const before = text.slice(Math.max(0, span.start - MOST_OF_A_LINE), span.start).split(/\r\n|[\r\n]/);
  const behind = text.slice(span.end, span.end + MOST_OF_A_LINE).split(/\r\n|[\r\n]/);
  const [above, below] = [before[before.length - 2] ?? '', behind[1] ?? ''];
  const made = [
    ...(isBlank(above) || first !== others ? [] : [blankBeside(above)]),
    ...block,
    ...(isBlank(below) ? [] : [blankBeside(below)]),
  ];
  return withEdits(text, [{ span, newText: made.join(lineBreak) }]);
}

/** Whether the new block is one in the text, and the others are as before. */
function isOneMore(made: string, name: string, before: string): boolean {
  const { fences } = readNote(made);
  return fenceOf(fences, name)?.closed === true && fences.length === readNote(before).fences.length + 1;
}

function fenceOf(fences: readonly Fence[], name: string): Fence | null {
  return fences.find(({ info }) => info === `measurement ${name}`) ?? null;
}
