import { isRightChoice } from '../checks/question-findings.ts';
import type { Quantity } from '../engine/quantity.ts';
import { evaluateStated } from '../language/evaluate-in.ts';
import type { Facts } from '../language/facts.ts';
import { lineOf, linesBelow } from '../language/line-edits.ts';
import type { Option, Question } from '../language/measurement.ts';
import type { Edit } from '../language/problem.ts';
import type { Action, ActionContext } from './action.ts';
import { type ChoiceValue, choiceValues } from './choice-values.ts';
import { blockAt, findingsAt, meets } from './places.ts';
import { type QuestionLine, questionLines } from './question-lines.ts';

/**
 * Writes into the empty choices of a question what students get who slip, one of them the right value, and sets the key.
 *
 * No two choices are alike. Where the slips give fewer values than there are choices, the rest stay empty.
 */
export function fillChoices(context: ActionContext): readonly Action[] {
  const facts = blockAt(context);
  if (facts?.measurement.question.find == null) return [];
  const lines = questionLines(context.text, facts.measurement.fence);
  const empty = lines.filter(({ letter, isEmpty }) => letter !== null && isEmpty);
  const isAsked = lines.some(({ letter, isEmpty }) => letter === null && isEmpty);
  const title =
    empty.length > 0
      ? `Fill the empty ${empty.length === 1 ? 'choice' : 'choices'} from the usual slips, and set the key`
      : 'Set the key';
  if ((empty.length === 0 && !isAsked) || !facts.value(facts.measurement.question.find.subject).ok) return [];
  const finding = findingsAt(context).find(({ span }) => empty.some(line => meets(line.span, span))) ?? null;
  return [
    {
      title,
      kind: 'refactor.rewrite',
      finding,
      isSure: false,
      edits: () => filledChoices(context.text, facts, lines),
    },
  ];
}

/** The edits that fill the empty choices of a block and set its key. */
function filledChoices(text: string, facts: Facts, lines: readonly QuestionLine[]): readonly Edit[] {
  const { question } = facts.measurement;
  const { find } = question;
  const truth = find === null ? null : facts.value(find.subject);
  if (find === null || !truth?.ok) return [];
  const filled = question.options.flatMap(option => choiceOf(facts, option, truth.quantity) ?? []);
  const unit = filled.find(({ quantity }) => quantity.unit !== null)?.quantity.unit ?? null;
  const values = choiceValues(facts, find.subject, unit, inMinutes(facts, truth.quantity), filled);
  if (values === null) return [];
  const isRight = (option: Option): boolean =>
    option.stated !== null && isRightChoice(facts, find.subject, truth.quantity, option.stated);
  const right = question.options.filter(isRight);
  const empty = lines.filter(({ letter, isEmpty }) => letter !== null && isEmpty);
  const place = right.length > 0 ? null : placeOfRight(facts, question, empty);
  const wrong = [...values.wrong];
  const edits = empty.flatMap((line): readonly Edit[] => {
    const choice = line === place ? values.right : wrong.shift();
    return choice === undefined ? [] : [{ span: line.valueSpan, newText: line.lead + choice.text }];
  });
  const letters = place === null ? right.map(({ letter }) => letter) : [place.letter!];
  return [...edits, ...keyEdits(text, facts, lines, letters)];
}

function choiceOf(facts: Facts, { stated, text }: Option, truth: Quantity): ChoiceValue | null {
  const value = stated === null ? null : evaluateStated(facts, stated, truth.dimension);
  return value?.ok ? { text, quantity: value.quantity } : null;
}

/** Whether the block writes its angles in minutes. */
function inMinutes({ measurement }: Facts, truth: Quantity): boolean {
  return truth.dimension.angle === 1 && measurement.fence.lines.some(({ text }) => /[′″'"]/.test(text));
}

/** The empty choice that the key names; else one by the block's name, so that it is not always the same. */
function placeOfRight(
  { measurement }: Facts,
  { answer, find }: Question,
  empty: readonly QuestionLine[],
): QuestionLine | null {
  const named = empty.find(({ letter }) => answer?.letters.length === 1 && answer.letters[0] === letter);
  return named ?? empty[digest(`${measurement.name} ${find?.text}`) % empty.length] ?? null;
}

/** A number that hangs on every letter of a text (FNV-1a, 32 bits), the same on every machine. */
function digest(text: string): number {
  let number = 0x811c9dc5;
  for (const character of text) number = Math.imul(number ^ character.codePointAt(0)!, 0x01000193);
  return (number ^ (number >>> 15)) >>> 0;
}

/** The key, written where it stands, or below the last choice; nothing where it is right already. */
function keyEdits(
  text: string,
  facts: Facts,
  lines: readonly QuestionLine[],
  letters: readonly string[],
): readonly Edit[] {
  const { fence, question } = facts.measurement;
  const { find, answer } = question;
  const truth = find === null ? null : facts.value(find.subject);
  if (letters.length !== 1 || find === null || !truth?.ok) return [];
  const key = lines.find(({ letter }) => letter === null);
  if (key === undefined) {
    const last = lines.filter(({ letter }) => letter !== null).at(-1);
    const line = last === undefined ? null : lineOf(fence, last.span.end);
    if (line === null) return [];
    const indent = /^\s*/.exec(line.text)![0];
    return [linesBelow(text, fence, line, [`${indent}answer = ${letters[0]}`])];
  }
  const states = answer?.stated ?? null;
  if (states !== null && isRightChoice(facts, find.subject, truth.quantity, states)) return [];
  if (answer !== null && answer.letters.join() === letters.join()) return [];
  return [{ span: key.valueSpan, newText: key.lead + letters[0] }];
}
