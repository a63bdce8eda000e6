import { readFileSync } from 'node:fs';
import { expect } from 'vitest';
import type { CheckedNote, Finding } from '../../server/src/checks/finding.ts';
import { type LineIndex, lineIndex, placeAt } from '../../server/src/checks/line-index.ts';
import type { Span } from '../../server/src/language/syntax.ts';

/**
 * Compares the `findings` fences of a note with what the check finds above them; `vitest -u` writes the
 * note anew. A fence holds everything about the findings between the fence above and itself.
 */
export async function expectFindingsFences(
  path: string,
  checkNote: (text: string) => CheckedNote,
): Promise<void> {
  await expect(withFindings(readFileSync(path, 'utf8'), checkNote)).toMatchFileSnapshot(path);
}

const FENCE = /^```findings\n[\s\S]*?^```$/gm;

/** The note with its `findings` fences filled; a fuller fence moves what stands below it, so this runs until nothing moves. */
export function withFindings(text: string, checkNote: (text: string) => CheckedNote): string {
  const filled = filledOnce(text, checkNote);
  return filled === text ? text : withFindings(filled, checkNote);
}

function filledOnce(text: string, checkNote: (text: string) => CheckedNote): string {
  const index = lineIndex(text);
  const { findings } = checkNote(text);
  let from = 0;
  return text.replace(FENCE, (_, at: number) => {
    const above = findings.filter(({ span }) => from <= span.start && span.start < at);
    from = at;
    const report =
      above.length === 0 ? 'nothing to correct' : above.map(finding => facts(index, finding)).join('\n');
    return `\`\`\`findings\n${report}\n\`\`\``;
  });
}

function facts(index: LineIndex, finding: Finding): string {
  const weight = finding.waived === null ? finding.severity : `waived (${finding.waived})`;
  const about = [finding.block, finding.term, finding.row === null ? null : `row ${finding.row}`];
  const lines = [
    `${place(index, finding.span)} ${weight} ${finding.rule}${finding.slip === null ? '' : ` [${finding.slip}]`}`,
    `  about ${about.filter(part => part !== null).join(', ') || 'the note'}`,
    `  ${finding.message}`,
  ];
  if (finding.stated !== null) lines.push(`  stated ${finding.stated}`);
  if (finding.computed !== null) lines.push(`  right ${finding.computed}`);
  if (finding.cause !== null) lines.push(`  from ${place(index, finding.cause)}`);
  for (const { span, message } of finding.related) lines.push(`  see ${place(index, span)} ${message}`);
  for (const fix of finding.fixes) {
    lines.push(`  ${fix.sure ? 'surely' : 'perhaps'} ${fix.title}`);
    for (const edit of fix.edits)
      lines.push(`    ${place(index, edit.span)} ${JSON.stringify(edit.newText)}`);
  }
  return lines.join('\n');
}

function place(index: LineIndex, span: Span): string {
  const start = placeAt(index, span.start);
  const end = placeAt(index, span.end);
  return `${start.line}:${start.column}-${end.line === start.line ? '' : `${end.line}:`}${end.column}`;
}
