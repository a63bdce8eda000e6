import { unitWord } from '../engine/unit.ts';
import { readBareOption } from './bare-choice.ts';
import { functionNamed } from './function-words.ts';
import { isSymbol } from './names.ts';
import { isSign, type Statement } from './parser.ts';
import { tokensText } from './statement-dress.ts';
import type { Token } from './syntax.ts';

/** A choice that a number names: `(1) 0.47 %`, `2. 0.94 %`, `3) 1.2 %`, `(iv) none of these`. */
export interface NumberedChoice {
  /** `1`, or for `(iv)` `IV`. */
  readonly letter: string;
  readonly value: readonly Token[];
}

/**
 * The choices of a block that numbers name, by their statements.
 *
 * A number before a line may count anything. It names a choice only where all such lines stand in order, from one on,
 * each with a value or `none of these` and nothing else, in a block that asks something, has a key, or has three of them.
 * Where letters name choices, numbers name none.
 */
export function numberedChoices(statements: readonly Statement[]): ReadonlyMap<Statement, NumberedChoice> {
  const found = statements.flatMap(statement => {
    const choice = numberedChoice(statement);
    return choice === null ? [] : [[statement, choice] as const];
  });
  const isList = countUp(found.map(([, { letter }]) => letter));
  const isAsked = found.length > 2 || statements.some(isQuestion);
  return isList && isAsked && !statements.some(hasLetter) ? new Map(found) : NO_CHOICES;
}

/** `(1) 5.62 mm  (2) 5.59 mm`: where choices begin that numbers name, several on one line; none where there are not two. */
export function numberedStarts(tokens: readonly Token[]): readonly number[] {
  const starts = tokens.flatMap((token, index) =>
    isSign(token, '(') && tokens[index + 2]?.text === ')' && numeralOf(tokens[index + 1]) !== null
      ? [index]
      : [],
  );
  const isList = starts[0] === 0 && countUp(starts.map(start => numeralOf(tokens[start + 1])));
  const values = starts.map((start, index) => tokens.slice(start + 3, starts[index + 1]));
  return isList && values.every(value => value.length > 0 && isChoiceValue(value)) ? starts : [];
}

export const NO_CHOICES: ReadonlyMap<Statement, NumberedChoice> = new Map();
const NUMBERS = ['1', '2', '3', '4', '5', '6', '7', '8', '9'];
const ROMANS = ['I', 'II', 'III', 'IV', 'V', 'VI', 'VII', 'VIII'];

/** Whether numerals stand in order, from one to two at least. */
function countUp(numerals: readonly (string | null)[]): boolean {
  const isPartOf = (all: readonly string[]): boolean => numerals.every((numeral, at) => numeral === all[at]);
  return numerals.length > 1 && (isPartOf(NUMBERS) || isPartOf(ROMANS));
}

function numberedChoice(statement: Statement): NumberedChoice | null {
  if (statement.kind === 'table' || statement.kind === 'claim') return null;
  const all = statement.kind === 'words' ? statement.tokens : statement.left;
  const opened = all[0] !== undefined && isSign(all[0], '(');
  const tokens = opened ? all.slice(1) : all;
  const letter = numeralOf(tokens[0]);
  const mark = tokens[1];
  if (letter === null || mark === undefined) return null;
  if (!isSign(mark, ')') && (opened || !isSign(mark, '.'))) return null;
  const behind = tokens.slice(2);
  if (statement.kind === 'record' && behind.length > 0) return null;
  const value = statement.kind === 'record' ? statement.right : behind;
  return isChoiceValue(value) ? { letter, value } : null;
}

function numeralOf(token: Token | undefined): string | null {
  if (token === undefined) return null;
  const text = token.text.toUpperCase();
  const isNumeral = token.kind === 'number' ? NUMBERS.includes(text) : ROMANS.includes(text);
  return isNumeral ? text : null;
}

/** Whether tokens are a value or a formula in symbols, or say that no other choice is right; words are no value. */
export function isChoiceValue(tokens: readonly Token[]): boolean {
  if (/^none(?: of (?:these|the above))?$/i.test(tokensText(tokens))) return true;
  return tokens.every((token, index) => {
    if (isSign(token, ',') || isSign(token, ':') || isSign(token, '=')) return false;
    if (token.kind !== 'word') return true;
    const before = tokens[index - 1];
    const isUnit = before !== undefined && unitWord(token.text) !== null;
    const stands =
      isUnit || isSymbol(token.text) || functionNamed(token.text) !== null || token.text === 'pi';
    const next = tokens[index + 1];
    return stands && !(index === 0 && next?.kind === 'number' && next.spaced);
  });
}

function isQuestion(statement: Statement): boolean {
  if (statement.kind === 'table') return false;
  if (statement.kind === 'words') return isKey(statement.tokens);
  const { leftSide } = statement;
  return leftSide.kind === 'term' && (leftSide.term.name === 'find' || leftSide.term.name === 'answer');
}

/** Whether a line without a sign begins as a key does: `Ans. (2)`. */
export function isKey(tokens: readonly Token[]): boolean {
  return tokens.length > 1 && /^(?:ans|answer|key)$/i.test(tokens[0]!.text);
}

function hasLetter(statement: Statement): boolean {
  if (statement.kind === 'table') return false;
  if (statement.kind === 'words') return readBareOption(statement.tokens) !== null;
  return statement.leftSide.kind === 'option';
}
