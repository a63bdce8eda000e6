import { evaluateStated } from '../language/evaluate-in.ts';
import type { Facts } from '../language/facts.ts';
import type { Option, Question, Stated, Subject } from '../language/measurement.ts';
import type { RuleName } from '../language/rule-names.ts';
import type { Span } from '../language/syntax.ts';
import { shownValue } from '../render/shown-value.ts';
import { agrees } from './agreement.ts';
import type { Finding } from './finding.ts';
import { findingAt, termText } from './finding-from.ts';
import { placeOf } from './link-value.ts';
import type { NoteCheck } from './note-check.ts';
import type { Rule } from './rule.ts';

/** The key of a question against its choices, and the choices against the value that the records give. */
export function questionFindings(rule: Rule, note: NoteCheck, kind: RuleName): readonly Finding[] {
  return note.facts.blocks.flatMap(facts => judged(rule, facts).filter(finding => finding.rule === kind));
}

function judged(rule: Rule, facts: Facts): readonly Finding[] {
  const { question } = facts.measurement;
  const { find, options, answer } = question;
  if (find === null || (options.length === 0 && answer === null)) return [];
  const truth = facts.value(find.subject);
  if (!truth.ok) return [];
  const right = (stated: Stated): boolean => {
    const value = evaluateStated(facts, stated, truth.quantity.dimension);
    return value.ok && agreesAsChoice(facts, find.subject, truth.quantity, value.quantity, stated);
  };
  const shown = shownValue(truth.quantity);
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
        make('wrong-key', answer.valueSpan, `the key says ${answer.stated.text}, but ${asked} is ${shown}`),
      ];
    return [];
  }
  if (rightOnes.length === 0)
    return [make('no-right-option', place, `no choice is right: ${asked} is ${shown}`)];
  if (rightOnes.length > 1 && !(answer !== null && answer.letters.length > 1)) {
    return [
      make(
        'several-right-options',
        place,
        `${listed(rightOnes.map(({ letter }) => letter))} are ${rightOnes.length === 2 ? 'both' : 'all'} right: ${asked} is ${shown}, and each of them agrees with it, so nobody can tell which one is meant`,
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
      {
        title: `Write ${letters.join(', ')}`,
        edits: [{ span: answer.valueSpan, newText: letters.join(', ') }],
        sure: true,
      },
    ]),
  ];
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

function agreesAsChoice(
  facts: Facts,
  subject: Subject,
  truth: Parameters<typeof agrees>[2],
  value: Parameters<typeof agrees>[2],
  stated: Stated,
): boolean {
  return agrees(facts, subject, truth, { quantity: value, place: placeOf(stated.expression) });
}

function answerText({ answer }: Question): string | null {
  if (answer === null) return null;
  return answer.letters.length > 0 ? answer.letters.join(', ') : (answer.stated?.text ?? null);
}
