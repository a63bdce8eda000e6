import { lineSpacing, type StatementSign } from './format-line.ts';
import { tidiedTable } from './format-table.ts';
import type { Measurement } from './measurement.ts';
import { type Block, LIMITS, type Statement } from './parser.ts';
import type { Edit } from './problem.ts';
import type { FenceLine, Span } from './syntax.ts';
import { isTableLine } from './table-line.ts';

/**
 * The edits that tidy a block: one space around signs, `×` for `*` and `x`, columns that line up, no blanks at the ends
 * of lines; a colon behind what was observed, an equals sign behind what was worked out.
 *
 * Names, numbers, comments and empty lines stay as typed, and so does every line that would be read differently. None
 * where nothing is to be tidied; tidying what is tidy changes nothing. `measurement` is what the block means once
 * its givens are adopted.
 */
export function formatBlock(block: Block, measurement: Measurement): readonly Edit[] {
  const signs = signsOf(block, measurement);
  const values = block.statements.flatMap(valueSpan);
  const tables = block.statements.flatMap(statement => (statement.kind === 'table' ? [statement] : []));
  const rows = new Map<number, string>();
  for (const { lines } of tables) {
    for (const [start, text] of tidiedTable(block.fence.lines, lines)) rows.set(start, text);
  }
  return block.fence.lines.flatMap(line => {
    if (line.text.length > LIMITS.lineLength) return [];
    const row = rows.get(line.start);
    if (row !== undefined) return shortened(line, row);
    return [...(isTableLine(line) ? [] : lineSpacing(line, signs, values)), ...trailingBlanks(line)];
  });
}

/** The signs of the statements by their places, and what each should be. */
function signsOf(block: Block, measurement: Measurement): ReadonlyMap<number, StatementSign> {
  const mended = mendedSigns(measurement);
  const signs = new Map<number, StatementSign>();
  for (const statement of block.statements) {
    if (statement.kind === 'table' || statement.kind === 'words') continue;
    const typed = statement.kind === 'record' ? ':' : '=';
    const isClosed = statement.leftSide.kind === 'term' && statement.leftSide.term.name === 'closed';
    signs.set(statement.sign.start, isClosed ? ':' : (mended.get(statement.sign.start) ?? typed));
  }
  return signs;
}

function mendedSigns({ claims, typedAsClaims, problems }: Measurement): ReadonlyMap<number, StatementSign> {
  const mended = new Map<number, StatementSign>();
  for (const { inTable, mended: isRewritten, signSpan } of claims)
    if (!inTable && !isRewritten) mended.set(signSpan.start, '=');
  // An observable that nothing else determines is a record, however it was typed.
  for (const claim of typedAsClaims)
    if (!claim.mended && !claims.includes(claim)) mended.set(claim.signSpan.start, ':');
  for (const { rule, fixes } of problems) {
    const edit = fixes[0]?.edits.length === 1 ? fixes[0].edits[0] : undefined;
    const sign = edit?.newText.trim();
    if (rule === 'not-plain' && edit !== undefined && (sign === ':' || sign === '='))
      mended.set(edit.span.start, sign);
  }
  return mended;
}

/** Where a statement's formula stands; nothing for what is said in words: a name, a reason, a choice. */
function valueSpan(statement: Statement): readonly Span[] {
  if (statement.kind === 'table' || statement.kind === 'words') return [];
  const { leftSide, right } = statement;
  const isInWords =
    leftSide.kind === 'option' ||
    (leftSide.kind === 'term' &&
      (leftSide.term.kind === 'record' ||
        leftSide.term.name === 'closed' ||
        leftSide.term.name === 'turned'));
  const [first, last] = [right[0], right[right.length - 1]];
  return isInWords || first === undefined || last === undefined
    ? []
    : [{ start: first.span.start, end: last.span.end }];
}

function trailingBlanks({ text, start }: FenceLine): readonly Edit[] {
  const length = text.trimEnd().length;
  return length === text.length
    ? []
    : [{ span: { start: start + length, end: start + text.length }, newText: '' }];
}

/** Another text for a line, as the shortest edit. */
function shortened({ text, start }: FenceLine, newText: string): readonly Edit[] {
  if (text === newText) return [];
  const most = Math.min(text.length, newText.length);
  let same = 0;
  while (same < most && text[same] === newText[same]) same += 1;
  let rest = 0;
  while (rest < most - same && text[text.length - 1 - rest] === newText[newText.length - 1 - rest]) rest += 1;
  return [
    {
      span: { start: start + same, end: start + text.length - rest },
      newText: newText.slice(same, newText.length - rest),
    },
  ];
}
