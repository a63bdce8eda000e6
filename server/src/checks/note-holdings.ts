import type { Facts } from '../language/facts.ts';
import { instrumentNamed } from '../language/instruments.ts';
import type { Claim, Measurement, Subject } from '../language/measurement.ts';
import type { RuleName } from '../language/rule-names.ts';
import { checkedNote } from './check.ts';
import { seenText } from './facts-digest.ts';
import type { Severity } from './finding.ts';
import { lineIndex, placeAt } from './line-index.ts';
import type { NoteCheck } from './note-check.ts';
import { mayTell } from './settings.ts';

/** What one note holds, for whoever counts a bank. */
export interface NoteHoldings {
  readonly blocks: readonly BlockHoldings[];
  /** Each finding that counts, by its rule and its slip. */
  readonly findings: readonly {
    readonly rule: RuleName;
    readonly severity: Severity;
    readonly slip: string | null;
  }[];
}

/** What one block holds. */
export interface BlockHoldings {
  /** The line of its fence, from 1. */
  readonly line: number;
  readonly name: string | null;
  /** As the trade calls it; null where the block names none. */
  readonly instrument: string | null;
  /** What it asks for, in the words of the trade, each once. */
  readonly asked: readonly string[];
  /** The letters of its choices and of its key; null for a block without choices or without a key, and for students. */
  readonly key: { readonly choices: readonly string[]; readonly letters: readonly string[] } | null;
  /**
   * What can be seen on the instrument, alike for the same scales and observations; null for no question, and where it is
   * all taken over from another block.
   */
  readonly seen: string | null;
}

/** Tells what a note holds. Of a note that students work in neither the keys nor the slips are told. */
export function noteHoldings(note: NoteCheck): NoteHoldings {
  const isTold = mayTell(note.settings);
  const index = lineIndex(note.text);
  const all = note.facts.blocks();
  // Of blocks with one name the first is used.
  const byName = new Map(all.map(facts => [facts.measurement.name, facts] as const).reverse());
  const blocks = all.slice(0, note.fences).map((facts): BlockHoldings => {
    const { measurement } = facts;
    return {
      line: placeAt(index, measurement.fence.span.start).line,
      name: measurement.name,
      instrument: instrumentOf(measurement),
      asked: askedFor(measurement),
      key: isTold ? keyOf(measurement) : null,
      seen: newlySeen(facts, byName),
    };
  });
  const findings = checkedNote(note).findings.flatMap(({ rule, severity, slip, waived }) =>
    waived === null ? [{ rule, severity, slip: isTold ? slip : null }] : [],
  );
  return { blocks, findings };
}

/** Who asks once more about a block that is `used` sets no new question. */
function newlySeen(facts: Facts, byName: ReadonlyMap<string | null, Facts>): string | null {
  const seen = seenText(facts);
  const { uses } = facts.measurement;
  const used = uses === null ? undefined : byName.get(uses.name);
  return seen === null || used === undefined || seenText(used) !== seen ? seen : null;
}

function instrumentOf({ instrument }: Measurement): string | null {
  return instrument === null ? null : (instrumentNamed(instrument)?.name ?? instrument);
}

/** What `find` names, and every claim that only asks. */
function askedFor({ question, claims }: Measurement): readonly string[] {
  const subjects = claims.filter(asks).map(({ subject }) => subject);
  const all = question.find === null ? subjects : [question.find.subject, ...subjects];
  return [...new Set(all.map(kindOfSubject))];
}

function asks({ links }: Claim): boolean {
  return links.some(({ content }) => content.kind === 'asked');
}

/** A term as it is called; all quantities of blocks' own together, for each block has its names. */
function kindOfSubject(subject: Subject): string {
  switch (subject.kind) {
    case 'term':
      return subject.term;
    case 'division':
      return subject.division;
    case 'count':
      return 'number of divisions';
    case 'statistic':
      return subject.statistic;
    case 'own':
    case 'unknown':
      return OWN;
  }
}

const OWN = 'a quantity of its own';

function keyOf({ question: { options, answer } }: Measurement): BlockHoldings['key'] {
  if (answer === null || options.length < 2) return null;
  const choices = options.map(({ letter }) => letter);
  const letters = answer.letters.filter(letter => choices.includes(letter));
  return letters.length === 0 ? null : { choices, letters };
}
