import type { Edit, Fix } from '../language/problem.ts';
import type { Finding } from './finding.ts';

/** Findings whose fixes leave no math sign and no emphasis open, where what they write over begins or ends it. */
export function withBalancedDress(text: string, findings: readonly Finding[]): readonly Finding[] {
  return DRESS.some(sign => text.includes(sign))
    ? findings.map(finding => ({ ...finding, fixes: finding.fixes.map(fix => balancedFix(text, fix)) }))
    : findings;
}

function balancedFix(text: string, fix: Fix): Fix {
  const opening = fix.edits.filter(edit => openSign(text, edit) !== null);
  // Two that take a sign each take its pair.
  if (opening.length !== 1) return fix;
  return { ...fix, edits: fix.edits.map(edit => (edit === opening[0] ? balanced(text, edit) : edit)) };
}

/**
 * The edit with the sign that its own text lacks.
 *
 *     > | $\frac{9}{2}$ cm^2
 *          ^^^^^^^^^^^^^^^^^   4.0 cm^2$, which the sign before it opens
 */
function balanced(text: string, edit: Edit): Edit {
  const { span, newText } = edit;
  const sign = openSign(text, edit) ?? '';
  const before = text.slice(lineStart(text, span.start), span.start);
  return { span, newText: isOdd(count(before, sign)) ? newText + sign : sign + newText };
}

/** The sign that an edit would leave open in a line that had it in pairs; null for none. */
function openSign(text: string, { span, newText }: Edit): string | null {
  const removed = text.slice(span.start, span.end);
  if (removed.includes('\n') || newText.includes('\n')) return null;
  const lineEnd = text.indexOf('\n', span.end);
  const line = text.slice(lineStart(text, span.start), lineEnd === -1 ? text.length : lineEnd);
  const isOpen = (sign: string): boolean =>
    isOdd(count(removed, sign) + count(newText, sign)) && !isOdd(count(line, sign));
  return DRESS.find(isOpen) ?? null;
}

function lineStart(text: string, at: number): number {
  return text.lastIndexOf('\n', at - 1) + 1;
}

const DRESS = ['$', '**'];

function count(text: string, sign: string): number {
  return text.split(sign).length - 1;
}

function isOdd(number: number): boolean {
  return number % 2 === 1;
}
