import type { CheckedNote, Finding } from '../checks/finding.ts';
import { noteSession } from '../checks/note-session.ts';
import type { Settings } from '../checks/settings.ts';
import { readNote } from '../language/fences.ts';
import { lineBreakOf } from '../language/line-edits.ts';
import type { Edit } from '../language/problem.ts';
import type { RuleName } from '../language/rule-names.ts';
import type { Fence, FenceLine } from '../language/syntax.ts';
import { mendedNote } from './fix-all.ts';
import { likelyLines } from './likely-lines.ts';
import { withEdits } from './settled-edits.ts';

/** Of more unreadable lines than this nobody asks what they may mean. */
const MOST_TRIED = 40;

/**
 * A note with one of its blocks made readable: its sure fixes made, what is likely meant written out, and what then
 * cannot be read kept as a comment. The rest of the note stays as it is.
 */
export function withReadableBlock(text: string, name: string, settings: Settings): string {
  const session = noteSession(settings);
  const check = (text: string): CheckedNote => {
    const { blocks, findings } = session.check(text);
    return {
      blocks,
      findings: findings.filter(({ block }) => block === name).map(finding => withoutLoss(finding, text)),
    };
  };
  let current = text;
  for (let round = 0; round < MOST_TRIED; round++) {
    current = mendedNote(current, check).text;
    const [first] = unreadableLines(current, name, check(current));
    if (first === undefined) return current;
    current = withLikelyLines(current, first, text => unreadableLines(text, name, check(text)).length);
  }
  const left = unreadableLines(current, name, check(current));
  return withEdits(
    current,
    left.map(({ line }) => asComment(line)),
  );
}

interface Unreadable {
  readonly fence: Fence;
  readonly line: FenceLine;
}

/** Writes a line as it is likely meant, where that can be read, else as a comment. */
function withLikelyLines(
  text: string,
  { fence, line }: Unreadable,
  unreadable: (text: string) => number,
): string {
  const before = unreadable(text);
  const [, indent, words, comment] = /^([ \t]*)(.*?)([ \t]+#.*)?$/.exec(line.text)!;
  for (const lines of likelyLines(words!)) {
    const newText = lines.join(lineBreakOf(text, fence) + line.prefix + indent) + (comment ?? '');
    const start = line.start + indent!.length;
    const made = withEdits(text, [{ span: { start, end: line.start + line.text.length }, newText }]);
    // Of several facts some can be read now.
    if (unreadable(made) < before + lines.length - 1) return made;
  }
  return withEdits(text, [asComment(line)]);
}

function asComment({ start }: FenceLine): Edit {
  return { span: { start, end: start }, newText: '# ' };
}

/** The lines of a block that nobody can read, and those that are a sentence. */
function unreadableLines(text: string, name: string, { findings }: CheckedNote): readonly Unreadable[] {
  const fence = readNote(text).fences.find(({ info }) => info === `measurement ${name}`);
  if (fence === undefined) return [];
  const lineAt = (at: number): FenceLine | undefined =>
    fence.lines.find(({ start, text: line }) => start <= at && at <= start + line.length);
  const lines = findings.flatMap(({ rule, span }) => {
    const line = lineAt(span.start);
    const isRead = rule !== 'unreadable-line' && !(IN_SENTENCES.has(rule) && isSentence(line?.text ?? ''));
    return line === undefined || isRead ? [] : [line];
  });
  return [...new Set(lines)].map(line => ({ fence, line }));
}

/** What is found in a sentence that is read as a statement, since a colon or an equals sign stands in it. */
const IN_SENTENCES: ReadonlySet<RuleName> = new Set([
  'unknown-block',
  'unknown-term',
  'ambiguous-expression',
]);

function isSentence(line: string): boolean {
  return /(?:\b\p{L}{2,}\b[^=≈|]{1,3}){6}/u.test(line) && !/^[ \t]*(?:waive|find|option)\b/i.test(line);
}

/** Rules about how a line is written; what is said about its values is for the writer to read. */
const WRITTEN: ReadonlySet<RuleName> = new Set([
  'unreadable-line',
  'unknown-term',
  'not-plain',
  'ambiguous-expression',
  'missing-unit',
  'duplicate-name',
  'taken-as-given',
]);

/**
 * A finding without a fix that would leave a part of the working out, or that makes a comment of a line before anybody
 * has asked what it may mean.
 */
function withoutLoss(finding: Finding, text: string): Finding {
  const edits = finding.fixes.flatMap(fix => fix.edits);
  const digits = (words: string): number => words.replace(/\D/g, '').length;
  const isLoss =
    finding.rule === 'taken-as-given' &&
    edits.some(({ span, newText }) => digits(newText) < digits(text.slice(span.start, span.end)));
  const isComment =
    finding.rule === 'unreadable-line' && edits.some(({ newText }) => newText.startsWith('#'));
  return isLoss || isComment || !WRITTEN.has(finding.rule) ? { ...finding, fixes: [] } : finding;
}
