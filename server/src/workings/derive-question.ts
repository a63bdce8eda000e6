import { agrees, comparable, type StatedValue } from '../checks/agreement.ts';
import { placeOf } from '../checks/link-value.ts';
import { findSlip } from '../checks/slip-search.ts';
import type { Derivation, Step } from '../engine/derivation.ts';
import type * as Q from '../engine/quantity.ts';
import { evaluateStated } from '../language/evaluate-in.ts';
import type { Facts } from '../language/facts.ts';
import type { Option, Stated, Subject } from '../language/measurement.ts';
import { claimLike } from './checked-link.ts';
import { resultLink, writtenValue } from './put-in.ts';
import { named, sideStep } from './step-parts.ts';
import { fullNameIn } from './subject-name.ts';
import type { Deriving } from './working.ts';

/**
 * Which choice of a question is right, and why each of the others is wrong: by the slip that leads to it.
 *
 * How the value asked for is worked out is a working of its own. Null where a block asks nothing, has no choices, or
 * does not determine the value.
 */
export function deriveQuestion({ facts }: Deriving): Derivation | null {
  const { find, options } = facts.measurement.question;
  const right = find === null ? null : writtenValue(facts, find.subject);
  if (find === null || right === null || options.length === 0) return null;
  const asked: Asked = { facts, subject: find.subject, truth: right.quantity, shown: right.text };
  const judged = options.map(option => judge(asked, option));
  const valued = judged.filter(({ isRight }) => isRight);
  const steps: Step[] = [
    sideStep(named(fullNameIn(facts, find.subject)), [resultLink(right)]),
    ...judged.map((choice): Step => ({ kind: 'remark', text: verdictOn(choice, valued, right.text) })),
  ];
  const none = options.some(({ stated }) => stated === null);
  if (valued.length === 0 && !none)
    steps.push({ kind: 'remark', text: `No choice is right: none of them is ${right.text}` });
  return { title: 'Choices', steps };
}

interface Asked {
  readonly facts: Facts;
  readonly subject: Subject;
  readonly truth: Q.Quantity;
  readonly shown: string;
}

interface Judged {
  readonly option: Option;
  readonly isRight: boolean;
  /** Why it is wrong, where a slip explains it. */
  readonly because: string | null;
  readonly isOtherKind: boolean;
}

function judge(asked: Asked, option: Option): Judged {
  const nothing = { option, isRight: false, because: null, isOtherKind: false };
  const { facts, subject, truth } = asked;
  const { stated } = option;
  if (stated === null) return nothing;
  const value = evaluateStated(facts, stated, truth.dimension);
  if (!value.ok) return nothing;
  const written: StatedValue = { quantity: value.quantity, place: placeOf(stated.expression) };
  if (agrees(facts, subject, truth, written)) return { ...nothing, isRight: true };
  if (comparable(truth, value.quantity) === null) return { ...nothing, isOtherKind: true };
  return { ...nothing, because: slipBehind(asked, stated, written) };
}

function slipBehind({ facts, subject, truth }: Asked, stated: Stated, value: StatedValue): string | null {
  const found = findSlip(facts, claimLike(subject), stated, value, truth, null);
  return found === null ? null : found.because;
}

function verdictOn(choice: Judged, valued: readonly Judged[], shown: string): string {
  const { option, isRight, because, isOtherKind } = choice;
  const letter = `(${option.letter})`;
  if (option.stated === null) return `${letter} ${noneOfThese(valued)}`;
  const text = `${letter} ${option.text}`;
  if (isRight)
    return valued.length === 1 ? `${text} is right` : `${text} is right, as ${others(choice, valued)}`;
  if (isOtherKind) return `${text} is wrong: it is another kind of quantity than ${shown}`;
  return because === null ? `${text} does not follow from what was recorded` : `${text} is wrong: ${because}`;
}

function noneOfThese(valued: readonly Judged[]): string {
  const [first] = valued;
  return first === undefined
    ? 'is right: no other choice has the value'
    : `is wrong, for (${first.option.letter}) is right`;
}

function others(choice: Judged, valued: readonly Judged[]): string {
  const letters = valued.filter(other => other !== choice).map(({ option }) => `(${option.letter})`);
  const all = letters.length === 1 ? letters[0] : `${letters.slice(0, -1).join(', ')} and ${letters.at(-1)}`;
  return `${all} ${letters.length === 1 ? 'is' : 'are'}: ${letters.length === 1 ? 'both' : 'all'} agree with it`;
}
