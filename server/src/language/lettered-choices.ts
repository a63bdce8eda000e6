import { isChoiceValue, NO_CHOICES, type NumberedChoice } from './numbered-choices.ts';
import type { Statement } from './parser.ts';
import type { Token } from './syntax.ts';

/**
 * The choices of a block that stand as records of A, B, C …: `A: 24.6 mm`, `B: 24.06 mm`.
 *
 * A, B and C may be areas and fields as well. They are choices only where they stand in order, from A on, each with a
 * value and nothing else, where the key is one of these letters and no other line speaks of any of them.
 */
export function letteredChoices(statements: readonly Statement[]): ReadonlyMap<Statement, NumberedChoice> {
  const start = statements.findIndex(statement => letteredChoice(statement, 0) !== null);
  if (start === -1) return NO_CHOICES;
  const found = new Map<Statement, NumberedChoice>();
  const names: string[] = [];
  for (const [index, statement] of statements.slice(start).entries()) {
    const choice = letteredChoice(statement, index);
    if (choice === null) break;
    found.set(statement, choice);
    names.push(choice.name);
  }
  const others = statements.filter(statement => !found.has(statement));
  const isKey = (statement: Statement): boolean => isKeyAmong(statement, LETTERS.slice(0, found.size));
  const isOther = (statement: Statement): boolean => !isKey(statement) && speaksOf(statement, names);
  return found.size > 1 && others.some(isKey) && !others.some(isOther) ? found : NO_CHOICES;
}

const LETTERS = ['A', 'B', 'C', 'D', 'E', 'F'];

function letteredChoice(
  statement: Statement,
  index: number,
): (NumberedChoice & { readonly name: string }) | null {
  if (statement.kind !== 'record' || statement.leftText.toUpperCase() !== LETTERS[index]) return null;
  return statement.right.length > 0 && isChoiceValue(statement.right)
    ? { letter: LETTERS[index], value: statement.right, name: statement.leftText }
    : null;
}

/** `answer = B`, `Ans: (b)`. */
function isKeyAmong(statement: Statement, letters: readonly string[]): boolean {
  if (statement.kind !== 'record' && statement.kind !== 'claim') return false;
  const { leftSide, right } = statement;
  const words = right.filter(({ kind }) => kind !== 'operator');
  return (
    leftSide.kind === 'term' &&
    leftSide.term.name === 'answer' &&
    words.length === 1 &&
    letters.includes(words[0]!.text.toUpperCase())
  );
}

function speaksOf(statement: Statement, letters: readonly string[]): boolean {
  if (statement.kind === 'table') return false;
  if (statement.kind === 'words') return statement.tokens.some(token => isOneOf(token, letters));
  if (statement.leftSide.kind === 'option') return true;
  // Behind a number a letter may be a unit.
  return [...statement.left, ...statement.right].some(
    (token, index, all) => isOneOf(token, letters) && all[index - 1]?.kind !== 'number',
  );
}

function isOneOf({ kind, text }: Token, letters: readonly string[]): boolean {
  return kind === 'word' && letters.includes(text);
}
