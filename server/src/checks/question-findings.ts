import type { Quantity } from '../engine/quantity.ts';
import { chosenReading, evaluateStated } from '../language/evaluate-in.ts';
import { replacing } from '../language/expression-fixes.ts';
import type { Facts } from '../language/facts.ts';
import type { Option, Question, Stated, Subject } from '../language/measurement.ts';
import type { Fix } from '../language/problem.ts';
import type { RuleName } from '../language/rule-names.ts';
import type { Span } from '../language/syntax.ts';
import { shownValue } from '../render/shown-value.ts';
import { agrees } from './agreement.ts';
import type { Finding } from './finding.ts';
import { findingAt, termText } from './finding-from.ts';
import { placeOf } from './link-value.ts';
import type { NoteCheck } from './note-check.ts';
import { rightValue } from './right-value.ts';
import { isRoundedToTens } from './rounded-to-tens.ts';
import type { Rule } from './rule.ts';
import { shownLike } from './shown-like.ts';
import { errorAgrees, statedError } from './stated-error.ts';

/** The key of a question against its choices, and the choices against the value that the records give. */
export function questionFindings(rule: Rule, note: NoteCheck, kind: RuleName): readonly Finding[] {
  return note.facts.blocks().flatMap(facts => judged(rule, facts).filter(finding => finding.rule === kind));
}

function judged(rule: Rule, facts: Facts): readonly Finding[] {
  const { question } = facts.measurement;
  const { find, options, answer } = question;
  if (find === null || (options.length === 0 && answer === null)) return [];
  const truth = facts.value(find.subject);
  if (!truth.ok) return [];
  const right = (stated: Stated): boolean => isRightChoice(facts, find.subject, truth.quantity, stated);
  const shown = shownRight(facts, question, truth.quantity);
  const valued = options.filter(option => option.stated !== null && right(option.stated));
  const none = options.find(option => option.stated === null);
  const rightOnes = valued.length > 0 ? valued : none === undefined ? [] : [none];
  const asked = find.subject.kind === 'own' ? find.text : `the ${find.text}`;
  const place = answer?.valueSpan ?? options[options.length - 1]?.valueSpan ?? find.span;
  const make = (name: RuleName, span: Span, message: string, fixes: Finding['fixes'] = []): Finding =>
    findingAt({ name, severity: rule.severity }, facts.measurement, span, {
      message,
      term: termText(find.subject),
      computed: shown,
      stated: answerText(question),
      fixes,
    });
  if (options.length === 0) {
    if (answer?.stated && !right(answer.stated))
      return [
        make(
          'wrong-key',
          answer.valueSpan,
          `the key says ${answer.stated.text}, but ${asked} is ${shown}`,
          valueFixes(facts, find.subject, answer.stated, answer.valueSpan, ''),
        ),
      ];
    return [];
  }
  if (rightOnes.length === 0)
    return [
      make('no-right-option', place, `no choice is right: ${asked} is ${shown}`, keyedFixes(facts, question)),
    ];
  if (rightOnes.length > 1 && !(answer !== null && answer.letters.length > 1)) {
    return [
      make(
        'several-right-options',
        place,
        `${listed(rightOnes.map(({ letter }) => letter))} are ${rightOnes.length === 2 ? 'both' : 'all'} right: ${asked} is ${shown}, and each of them agrees with it, so nobody can tell which one is meant`,
        answer === null || answer.letters.length === 0 ? [] : [keyFix(answer.valueSpan, rightOnes, false)],
      ),
    ];
  }
  return keyFindings(make, question, rightOnes, right, asked, shown);
}

function keyFindings(
  make: (name: RuleName, span: Span, message: string, fixes?: Finding['fixes']) => Finding,
  { answer, options }: Question,
  rightOnes: readonly Option[],
  right: (stated: Stated) => boolean,
  find: string,
  shown: string,
): readonly Finding[] {
  if (answer === null) return [];
  const letters = rightOnes.map(option => option.letter);
  if (answer.letters.length === 0) {
    if (answer.stated === null || right(answer.stated)) return [];
    return [
      make(
        'wrong-key',
        answer.valueSpan,
        `the key says ${answer.stated.text}, but ${find} is ${shown}, which is ${choices(letters)}`,
        rightOnes
          .slice(0, 1)
          .map(({ stated, text, letter }) =>
            replacing(answer.valueSpan, stated === null ? letter : text, true),
          ),
      ),
    ];
  }
  const same =
    letters.length === answer.letters.length && letters.every(letter => answer.letters.includes(letter));
  if (same) return [];
  const named = answer.letters.join(', ');
  const unknown = answer.letters.filter(letter => !options.some(option => option.letter === letter));
  const said = unknown.length > 0 ? `the key names ${named}, which is no choice` : `the key says ${named}`;
  return [
    make('wrong-key', answer.valueSpan, `${said}, but ${find} is ${shown}, which is ${choices(letters)}`, [
      keyFix(answer.valueSpan, rightOnes, true),
    ]),
  ];
}

/** Lets the key name all choices that are right. */
function keyFix(span: Span, rightOnes: readonly Option[], sure: boolean): Fix {
  return replacing(span, rightOnes.map(({ letter }) => letter).join(', '), sure);
}

/** Where no choice is right, the one that the key names can be made so. */
function keyedFixes(facts: Facts, { find, options, answer }: Question): readonly Fix[] {
  const named = options.find(({ letter }) => answer?.letters.length === 1 && answer.letters[0] === letter);
  if (find === null || named?.stated == null) return [];
  return valueFixes(facts, find.subject, named.stated, named.valueSpan, ` in choice ${named.letter}`);
}

/** Writes the right value in the unit of what is stated; only the key is surely wrong. */
function valueFixes(
  facts: Facts,
  subject: Subject,
  stated: Stated,
  span: Span,
  where: string,
): readonly Fix[] {
  const value = evaluateStated(facts, stated, null);
  const right = rightValue(facts, subject, value.ok ? value.quantity.unit : null, /[′″]/.test(stated.text));
  if (right === null) return [];
  const error = statedError(facts, subject, stated);
  const unit = error?.written.ok ? error.written.quantity.unit : null;
  const rightError = error === null ? null : rightValue(facts, error.subject, unit);
  const text = rightError === null ? right.text : `${right.text} ± ${rightError.text}`;
  const fix = replacing(span, text, where === '');
  return [{ ...fix, title: `${fix.title}${where}` }];
}

function choices(letters: readonly string[]): string {
  return letters.length === 1 ? `choice ${letters[0]}` : `what the choices ${listed(letters)} say`;
}

/** `A and B`, `A, B and C`. */
function listed(letters: readonly string[]): string {
  return letters.length < 2
    ? letters.join('')
    : `${letters.slice(0, -1).join(', ')} and ${letters[letters.length - 1]}`;
}

/** The right value in the form of the choices, with its error where the choices or the key state one. */
function shownRight(facts: Facts, { find, options, answer }: Question, truth: Quantity): string {
  const beside = [...options, answer].flatMap(each => each?.stated ?? []);
  const value = shownLike(facts, truth, beside);
  const stated = beside.find(({ error }) => error !== null);
  const error = find === null || stated === undefined ? null : statedError(facts, find.subject, stated);
  if (!error?.truth.ok) return value;
  const unit = error.written.ok ? error.written.quantity.unit : null;
  return `${value} ± ${shownValue(error.truth.quantity, { unit })}`;
}

/**
 * Whether a choice, or a key that states a value, agrees with the right one: in its value and in its error.
 *
 * Where none does to its last digit, one that is rounded to the tens that the data carry is right.
 */
export function isRightChoice(facts: Facts, subject: Subject, truth: Quantity, stated: Stated): boolean {
  const { options } = facts.measurement.question;
  return (
    choiceAgrees(facts, subject, truth, stated, agrees) ||
    (choiceAgrees(facts, subject, truth, stated, (...value) => isRoundedToTens(stated, ...value)) &&
      !options.some(
        other => other.stated !== null && choiceAgrees(facts, subject, truth, other.stated, agrees),
      ))
  );
}

function choiceAgrees(
  facts: Facts,
  subject: Subject,
  truth: Quantity,
  stated: Stated,
  isRight: typeof agrees,
): boolean {
  const value = evaluateStated(facts, stated, truth.dimension);
  if (!value.ok) return false;
  const place = placeOf(chosenReading(facts, stated, truth.dimension));
  // Beside choices in per cent a number without the sign is another one.
  if (truth.unit?.symbol === '%' && value.quantity.unit === null && speaksInPercent(facts)) return false;
  return (
    isRight(facts, subject, truth, { quantity: value.quantity, place }) &&
    hasRightError(facts, subject, stated)
  );
}

function speaksInPercent({ measurement }: Facts): boolean {
  return measurement.question.options.some(
    ({ stated }) => stated?.expression.kind === 'literal' && stated.expression.quantity.unit?.symbol === '%',
  );
}

function hasRightError(facts: Facts, subject: Subject, stated: Stated): boolean {
  const error = statedError(facts, subject, stated);
  if (error === null || stated.error === null || !error.truth.ok) return true;
  const { written, truth } = error;
  return written.ok && errorAgrees(facts, truth.quantity, written.quantity, stated) === true;
}

function answerText({ answer }: Question): string | null {
  if (answer === null) return null;
  return answer.letters.length > 0 ? answer.letters.join(', ') : (answer.stated?.text ?? null);
}
