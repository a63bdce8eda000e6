import { type Draft, replaceFix, report } from './draft.ts';
import type { LeftSide } from './left-side.ts';
import { isSign, type Statement } from './parser.ts';
import type { Fix } from './problem.ts';
import { tokensText } from './statement-dress.ts';
import type { Span, Token } from './syntax.ts';

type Signed = Exclude<Statement, { readonly kind: 'table' | 'words' }>;

/**
 * Statements in the forms of hurried people, which are understood but not in the language's form: an error whose first
 * fix writes what was meant. True when the statement was one of them.
 */
export function oneKeyAway(draft: Draft, statement: Signed, left: LeftSide): boolean {
  const value = tokensText(statement.right);
  const away = (message: string, text: string): true => {
    report(draft, 'not-plain', statement.span, message, [
      replaceFix(`Write ${text}`, statement.span, text, true),
    ]);
    return true;
  };
  const only = statement.right.length === 1 ? statement.right[0] : undefined;
  const bareNumber = only?.kind === 'number';
  const whole = bareNumber && /^\d+$/.test(only.text);
  const leftText = tokensText(statement.left);
  if (leftText === 'N' && whole && (draft.isScrew || draft.hasVernier)) {
    const scale = draft.isScrew ? 'circular scale' : 'vernier scale';
    return away(
      `N is the number of divisions of the ${scale} here; write it as the scale's record`,
      `${scale}: ${value} divisions`,
    );
  }
  if (leftText === 'n' && whole && draft.isScrew && !draft.hasVernier) {
    return away(
      'on a screw n is no reading; the number of divisions of the circular scale is likely meant',
      `circular scale: ${value} divisions`,
    );
  }
  if (left.kind === 'term' && left.term.name === 'vernier scale reading' && bareNumber) {
    return away(
      `a vernier scale reading is a length, but ${value} is the number of a line: the coinciding division`,
      `coinciding division: ${value}`,
    );
  }
  const signed =
    /^(negative|positive)\s+(zero error|zero correction)$/i.exec(leftText) ??
    /^(-|\+)\s*(?:ve)?\s*(zero error|zero correction)$/i.exec(leftText);
  if (signed !== null) {
    const sign = signed[1] === '-' || signed[1]!.toLowerCase() === 'negative' ? '-' : '+';
    const bare = value.replace(/^[+-]\s*/, '');
    return away(
      `the sign of a ${signed[2]!.toLowerCase()} belongs to its value`,
      `${signed[2]!.toLowerCase()} = ${sign}${bare}`,
    );
  }
  return signInBrackets(statement, leftText, away) || numberedReading(draft, statement, leftText);
}

/** `zero error = 0.02 cm (negative)`: the word and the sign disagree. */
function signInBrackets(
  statement: Signed,
  leftText: string,
  away: (message: string, text: string) => true,
): boolean {
  const at = statement.right.findIndex(token => isSign(token, '('));
  const word = at < 1 ? '' : tokensText(statement.right.slice(at + 1, -1)).toLowerCase();
  if (
    (word !== 'negative' && word !== 'positive') ||
    !isSign(statement.right[statement.right.length - 1]!, ')')
  )
    return false;
  const value = tokensText(statement.right.slice(0, at)).trim();
  const bare = value.replace(/^[+-]\s*/, '');
  const sign = word === 'negative' ? '-' : '+';
  return away(
    `${value} is written with one sign and called ${word} in brackets; the sign belongs to the value`,
    `${leftText} = ${sign}${bare}`,
  );
}

/** `reading 1: 4.20 cm, VC 12`: repeated readings belong in a table. */
function numberedReading(draft: Draft, statement: Signed, leftText: string): boolean {
  const number = /^(?:reading|obs\.?|observation|trial)\s*(?:no\.?\s*)?(\d{1,3})$/i.exec(leftText)?.[1];
  if (number === undefined || statement.kind !== 'record') return false;
  const parts: Token[][] = [[]];
  for (const token of statement.right) {
    if (isSign(token, ',') || isSign(token, ';')) parts.push([]);
    else parts[parts.length - 1]!.push(token);
  }
  const screw = draft.isScrew;
  const cells = parts.map(part => {
    const named = part[0]?.kind === 'word' ? part[0].text : null;
    const rest =
      named === null ? part : part.slice(1).filter(token => !isSign(token, '=') && !isSign(token, ':'));
    return { head: named ?? (screw ? 'LSR' : 'MSR'), value: tokensText(rest) };
  });
  const indent = ' '.repeat(indentOf(draft, statement.span));
  const head = `| ${cells.map(cell => cell.head).join(' | ')} |`;
  const row = `| ${cells.map(cell => cell.value).join(' | ')} |`;
  const prefix =
    draft.fence.lines.find(
      line => line.start <= statement.span.start && statement.span.start <= line.start + line.text.length,
    )?.prefix ?? '';
  const text = `${head}\n${prefix}${indent}${row}`;
  report(draft, 'not-plain', statement.span, 'repeated readings are written as the rows of a table', [
    replaceFix('Write it as a table', statement.span, text, true),
  ]);
  return true;
}

function indentOf(draft: Draft, span: Span): number {
  const line = draft.fence.lines.find(
    candidate => candidate.start <= span.start && span.start <= candidate.start + candidate.text.length,
  );
  return line === undefined ? 0 : line.text.length - line.text.trimStart().length;
}

/** A line with neither colon nor equals sign: `17th division coincides`, or text that belongs in a comment. */
export function oneKeyWords(draft: Draft, tokens: readonly Token[], span: Span): void {
  const text = tokensText(tokens);
  const coincides =
    /^(?:the )?(\d+) ?(?:st|nd|rd|th)? ?(?:vernier )?(?:scale )?(?:division|line|mark)(?: of (?:the )?vernier(?: scale)?)? (?:coincides|coinciding|matches|is in line)/i.exec(
      text,
    );
  if (coincides?.[1] !== undefined) {
    const meant =
      draft.isScrew && !draft.hasVernier
        ? `circular scale reading: ${coincides[1]}`
        : `coinciding division: ${coincides[1]}`;
    report(draft, 'not-plain', span, 'what was seen is recorded with its name and a colon', [
      replaceFix(`Write ${meant}`, span, meant, true),
    ]);
    return;
  }
  report(
    draft,
    'unreadable-line',
    span,
    'this line is no record, no claim and no table; if it is text, make it a comment',
    [commentFix(span)],
  );
}

/** Makes the line that a statement stands on a comment. */
export function commentFix(span: Span): Fix {
  return {
    title: 'Make it a comment',
    edits: [{ span: { start: span.start, end: span.start }, newText: '# ' }],
    sure: true,
  };
}
