import type { Edit } from '../language/problem.ts';
import type { Finding } from './finding.ts';

/** Findings whose fixes break lines as the note does where they stand: with a carriage return where it has one. */
export function withLineBreaks(text: string, findings: readonly Finding[]): readonly Finding[] {
  if (!text.includes('\r')) return findings;
  return findings.map(finding =>
    finding.fixes.some(({ edits }) => edits.some(isBroken))
      ? {
          ...finding,
          fixes: finding.fixes.map(fix => ({ ...fix, edits: fix.edits.map(edit => asTyped(text, edit)) })),
        }
      : finding,
  );
}

function isBroken({ newText }: Edit): boolean {
  return newText.includes('\n');
}

function asTyped(text: string, { span, newText }: Edit): Edit {
  // The break above belongs to the block in any case; the line below may be none.
  const above = Math.max(text.lastIndexOf('\n', span.start - 1), text.lastIndexOf('\r', span.start - 1));
  const lineBreak = text[above] === '\r' ? '\r' : text[above - 1] === '\r' ? '\r\n' : '\n';
  return { span, newText: newText.replace(/\r\n|\n/g, lineBreak) };
}
