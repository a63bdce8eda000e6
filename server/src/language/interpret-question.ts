import { type Draft, leaveOutFixes, replaceFix, report } from './draft.ts';
import { resolveName } from './names.ts';
import { numberedStarts } from './numbered-choices.ts';
import { isSign, tokensSpan } from './parser.ts';
import { readStated } from './stated.ts';
import { tokensText } from './statement-dress.ts';
import type { Span, Token } from './syntax.ts';
import { findTerm } from './terms.ts';
import { reportUnknownReference, restOfReference } from './unknown-reference.ts';

/** `find: corrected reading`: what the question asks for. */
export function interpretFind(draft: Draft, right: readonly Token[], span: Span): void {
  const text = tokensText(right).replace(/^the /i, '').replace(/\?$/, '').trim();
  const subject = resolveName(text, draft.names);
  if (subject === null) {
    const at = text.indexOf(' of ');
    if (at !== -1 && findTerm(text.slice(0, at)) !== null) {
      reportUnknownReference(draft, text, restOfReference(text), tokensSpan(right));
      return;
    }
    report(
      draft,
      'unknown-term',
      right.length === 0 ? span : tokensSpan(right),
      `the question asks for ${text || 'nothing'}, which is no term and no quantity of this note`,
    );
    return;
  }
  draft.find = { subject, text, span };
}

/** `option B: 2.478 cm`, `option D: none of these`. */
export function interpretOption(draft: Draft, letter: string, right: readonly Token[], span: Span): void {
  const before = draft.options.find(option => option.letter === letter);
  if (before !== undefined) {
    report(
      draft,
      'duplicate-name',
      span,
      `option ${letter} already stands above; the first one is used`,
      leaveOutFixes(draft, span, 'option'),
      [{ span: before.span, message: `the first option ${letter}` }],
    );
    return;
  }
  const text = tokensText(right);
  const valueSpan = right.length === 0 ? span : tokensSpan(right);
  if (/^(?:none of (?:these|the above)|none)$/i.test(text)) {
    draft.options.push({ letter, stated: null, text, span, valueSpan });
    return;
  }
  if (right.length === 0) {
    report(draft, 'unreadable-line', span, `option ${letter} is empty`);
    return;
  }
  const stated = readStated(draft, right, { mode: 'link', isRecord: true });
  if (stated !== null) draft.options.push({ letter, stated, text, span, valueSpan });
}

/** `answer = B`, `Ans: (b)`, `answer = A, C`, `answer = 2.478 cm`. */
export function interpretAnswer(draft: Draft, right: readonly Token[], span: Span): void {
  if (draft.answer !== null) {
    report(
      draft,
      'duplicate-name',
      span,
      'the key already stands above; the first one is used',
      leaveOutFixes(draft, span, 'key'),
      [{ span: draft.answer.span, message: 'the first key' }],
    );
    return;
  }
  const valueSpan = right.length === 0 ? span : tokensSpan(right);
  if (right.some(token => isSign(token, '?'))) return;
  const bare = right.filter(token => !isSign(token, '(') && !isSign(token, ')') && !isSign(token, '.'));
  const named = /^(?:option|choice)$/i.test(bare[0]?.text ?? '') ? bare.slice(1) : bare;
  const letters = named.filter(token => !isSign(token, ',') && !/^and$/i.test(token.text));
  const names = choiceNames(draft);
  const isLetter = ({ kind, text }: Token): boolean =>
    (kind === 'word' && /^[A-Za-z]$/.test(text)) || names.has(text.toUpperCase());
  if (letters.length > 0 && letters.every(isLetter)) {
    draft.answer = { letters: letters.map(token => token.text.toUpperCase()), stated: null, span, valueSpan };
    return;
  }
  // `(b) 2.478 cm` says the letter and repeats the value.
  const first = letters[0];
  const isNamed = first?.kind === 'word' || right[right.indexOf(first!) + 1]?.text === ')';
  if (first !== undefined && isNamed && names.has(first.text.toUpperCase())) {
    draft.answer = { letters: [first.text.toUpperCase()], stated: null, span, valueSpan };
    return;
  }
  const counted = countedChoice(draft, letters);
  if (counted !== null) {
    report(
      draft,
      'not-plain',
      valueSpan,
      `the key says ${first!.text}, but letters name the choices; ${counted}, the ${ORDINALS[Number(first!.text) - 1]} one, is likely meant`,
      [replaceFix(`Write ${counted}`, valueSpan, counted, false)],
    );
    draft.answer = { letters: [counted], stated: null, span, valueSpan };
    return;
  }
  if (right.length === 0) {
    report(draft, 'unreadable-line', span, 'the key is empty; write the letter of the right choice');
    return;
  }
  const stated = readStated(draft, right, { mode: 'link', isRecord: true });
  if (stated !== null) draft.answer = { letters: [], stated, span, valueSpan };
}

const ORDINALS = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth'];

/** `Answer: 3` beside choices that letters name and that are no bare numbers: the third of them; null where it is none. */
function countedChoice({ options }: Draft, [number, ...others]: readonly Token[]): string | null {
  if (number?.kind !== 'number' || others.length > 0 || !/^[1-8]$/.test(number.text)) return null;
  const areMeasured =
    options.length > 1 &&
    options.every(({ letter, stated }) => /^[A-H]$/.test(letter) && (stated === null || stated.hasUnit));
  return areMeasured ? (options[Number(number.text) - 1]?.letter ?? null) : null;
}

/** What names the block's choices, those that are still to be read as well where numbers do. */
export function choiceNames({ options, choices }: Draft): ReadonlySet<string> {
  return new Set([...options, ...choices.values()].map(({ letter }) => letter));
}

/** `(A) 5.62 mm  (B) 5.59 mm`: several choices on one line; null where there is only one. */
export function splitOptions(tokens: readonly Token[]): readonly string[] | null {
  const starts = tokens.flatMap((token, index) =>
    isSign(token, '(') &&
    /^[A-Ha-h]$/.test(tokens[index + 1]?.text ?? '') &&
    tokens[index + 2] !== undefined &&
    isSign(tokens[index + 2]!, ')')
      ? [index]
      : [],
  );
  const letters = starts.map(start => tokens[start + 1]!.text.toUpperCase());
  // `(A) a/(b)` holds a bracketed letter too; choices come in the order of the alphabet.
  const ordered = letters.every((letter, at) => at === 0 || letter > letters[at - 1]!);
  const isLettered = starts.length > 1 && starts[0] === 0 && ordered && letters[0] === 'A';
  const chosen = isLettered ? starts : numberedStarts(tokens);
  if (chosen.length === 0) return null;
  return chosen.map(
    (start, at) =>
      `option ${tokens[start + 1]!.text.toUpperCase()}: ${tokensText(tokens.slice(start + 3, chosen[at + 1]))}`,
  );
}
