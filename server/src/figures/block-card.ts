import type { NoteCheck } from '../checks/note-check.ts';
import { isRightChoice } from '../checks/question-findings.ts';
import { mayTell } from '../checks/settings.ts';
import type { Facts } from '../language/facts.ts';
import type { Measurement, Question, RowNumber, Subject } from '../language/measurement.ts';
import { subjectKey } from '../language/names.ts';
import { parseBlock, type Statement } from '../language/parser.ts';
import { tokensText } from '../language/statement-dress.ts';
import type { Span, Token } from '../language/syntax.ts';
import type { Card, CardChoice, CardLine } from '../render/card.ts';
import { plainWords } from '../render/plain-words.ts';
import { writtenValue } from '../workings/put-in.ts';
import { titleOf } from '../workings/subject-name.ts';
import { workedSubjects } from '../workings/worked-subjects.ts';
import { cardTable } from './card-table.ts';

/**
 * What a block records, in its own order, and what follows from it; every value as the records make it, whatever the
 * block claims.
 *
 * `isQuestion` leaves out all that gives the answer away: claims, what follows, the key. So do settings that let
 * nothing be told.
 */
export function blockCard(note: NoteCheck, block: number, isQuestion: boolean): Card {
  const facts = note.facts.block(block);
  const { measurement } = facts;
  const told = !isQuestion && mayTell(note.settings);
  const statements = parseBlock(measurement.fence).statements;
  const recorded = statements.flatMap(statement => recordLine(note, measurement, statement) ?? []);
  const readings = statements.flatMap(statement =>
    statement.kind === 'table' ? (cardTable(facts, statement.lines, told) ?? []) : [],
  );
  return {
    name: measurement.name === null ? null : plainWords(measurement.name),
    instrument: measurement.instrument === null ? null : plainWords(measurement.instrument),
    lines: [...recorded, ...(told ? workedLines(facts) : [])],
    readings,
    asked: measurement.question.find === null ? null : plainWords(measurement.question.find.text),
    choices: choicesOf(facts, measurement.question, told),
  };
}

/** Lines that say how a block is looked at, or give its answer away; the question and its choices are told apart. */
const NOT_SHOWN: ReadonlySet<string> = new Set(['waive', 'answer', 'option', 'find', 'instrument']);

/** Says what a line records; null for a claim, whatever its sign, and for what a card has no line for. */
function recordLine(note: NoteCheck, measurement: Measurement, statement: Statement): CardLine | null {
  if (statement.kind !== 'record' && statement.kind !== 'claim') return null;
  const { left, leftSide, leftText, right, span } = statement;
  if (leftSide.kind === 'option' || leftSide.kind === 'none') return null;
  const term = leftSide.kind === 'term' ? leftSide.term : null;
  if (term !== null && NOT_SHOWN.has(term.name)) return null;
  const claim = measurement.claims.find(each => overlaps(each.span, span));
  if (claim !== undefined && !(note.assumed.has(claim) && isPlainData(measurement, claim.subject)))
    return null;
  if (claim === undefined && statement.kind === 'claim' && term?.kind !== 'observable') return null;
  if (claim === undefined && asksFor(measurement, term?.name ?? leftText)) return null;
  const symbol = leftSide.kind === 'term' && leftSide.symbol !== null ? ` ${leftSide.symbol}` : '';
  const label = term === null ? typedText(note.text, left) : `${term.name}${symbol}`;
  return {
    label: plainWords(label),
    value: { text: plainWords(typedText(note.text, right)), quantity: null },
    isWorkedOut: false,
  };
}

/** Whether what was typed with an equals sign is data all the same: nothing determines it, nobody asks for it. */
function isPlainData(measurement: Measurement, subject: Subject): boolean {
  const { find } = measurement.question;
  const isAsked = find !== null && subjectKey(find.subject) === subjectKey(subject);
  // Where a line could not be read, it may be what would have determined this.
  return !isAsked && measurement.broken.size === 0 && measurement.problems.length === 0;
}

function asksFor({ question: { find } }: Measurement, name: string): boolean {
  if (find === null) return false;
  const { subject } = find;
  const asked = subject.kind === 'term' ? subject.term : subject.kind === 'own' ? subject.name : find.text;
  return asked === name;
}

function overlaps(a: Span, b: Span): boolean {
  return a.start < b.end && b.start < a.end;
}

/** As typed where that is plain; what dresses it as math is left out. */
function typedText(note: string, tokens: readonly Token[]): string {
  const first = tokens[0];
  const last = tokens.at(-1);
  if (first === undefined || last === undefined) return '';
  const typed = note.slice(first.span.start, last.span.end);
  return /[$\\\n\r*_`{}]/.test(typed) ? tokensText(tokens) : typed;
}

function workedLines(facts: Facts): readonly CardLine[] {
  const { measurement } = facts;
  const isTabled = measurement.rows.length > 0;
  return workedSubjects(facts).flatMap(subject => {
    if (isTabled && rowOf(subject) !== null) return [];
    const answer = facts.value(subject);
    const isHere = answer.ok && answer.source !== 'computed';
    const value = isHere ? null : writtenValue(facts, subject);
    if (value === null) return [];
    return [{ label: inLine(plainWords(titleOf(facts, subject))), value, isWorkedOut: true }];
  });
}

/** A heading's words as a line begins with them; a symbol keeps its case. */
function inLine(title: string): string {
  return title.replace(/^\p{Lu}(?=\p{Ll}{2})/u, first => first.toLowerCase());
}

function rowOf(subject: Subject): RowNumber {
  return (subject.kind === 'term' || subject.kind === 'own') && subject.block === null ? subject.row : null;
}

function choicesOf(facts: Facts, { find, options }: Question, told: boolean): readonly CardChoice[] {
  const truth = find === null ? null : facts.value(find.subject);
  const judged = options.map(({ letter, text, stated }) => ({
    letter,
    text: plainWords(text),
    isNone: stated === null,
    fits:
      find !== null && truth?.ok === true && stated !== null
        ? isRightChoice(facts, find.subject, truth.quantity, stated)
        : false,
  }));
  const isJudged = told && truth?.ok === true;
  const isNoneRight = !judged.some(({ fits }) => fits);
  return judged.map(({ letter, text, isNone, fits }) => ({
    letter,
    text,
    isRight: isJudged ? fits || (isNone && isNoneRight) : null,
  }));
}
