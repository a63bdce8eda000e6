import type { NoteCheck } from '../checks/note-check.ts';
import { mayTell } from '../checks/settings.ts';
import type { Facts } from '../language/facts.ts';
import { ownerOf } from '../language/facts-error.ts';
import type { Instrument } from '../language/instruments.ts';
import type { Claim, Subject } from '../language/measurement.ts';
import { blockOf } from '../language/names.ts';
import type { Term } from '../language/terms.ts';
import { derivationText } from '../render/derivation-text.ts';
import { workingOf } from '../workings/working.ts';
import { lackText } from './lack-text.ts';
import type { NearBlocks } from './near-blocks.ts';
import { type Pointed, termOfSubject } from './pointed-at.ts';
import type { Told } from './told.ts';
import { valueWithError } from './value-text.ts';

/** What is told of something in a block: its meaning, its value, and how that follows. For a student no value. */
export function toldOf(near: NearBlocks, pointed: Pointed): readonly Told[] {
  const isTold = mayTell(near.check().settings);
  switch (pointed.kind) {
    case 'instrument':
      return toldOfInstrument(pointed.instrument);
    case 'claim': {
      const { block, claim, isName } = pointed;
      const term = isName || !isTold ? termOfSubject(claim.subject) : null;
      const meaning = term === null ? [] : toldOfTerm(term);
      return [...toldOfClaim(near, block, claim), ...meaning];
    }
    case 'name': {
      const { text, term, subject, block } = pointed;
      const facts = near.check().facts.block(block);
      const isWholeTerm = subject === null || (subject.kind !== 'statistic' && blockOf(subject) === null);
      const about: readonly Told[] =
        term === null ? ownTitle(subject, text) : isWholeTerm ? toldOfTerm(term) : toldOfTerm(term, text);
      if (!isTold) return about;
      const value = valueHere(near.check(), facts, subject ?? scaleSubject(term), subject === null);
      return value === null ? about : [...about, value];
    }
  }
}

function ownTitle(subject: Subject | null, text: string): readonly Told[] {
  if (subject?.kind === 'count')
    return [
      { kind: 'title', name: 'N', also: [] },
      { kind: 'words', text: 'the number of divisions of the finer scale' },
    ];
  return subject?.kind === 'own' ? [{ kind: 'title', name: text, also: [] }] : [];
}

/** A word of the trade: what it means, its formula, its unit and its sign. */
export function toldOfTerm(term: Term, name: string = term.name): readonly Told[] {
  const { also, meaning, formula, unit, sign } = term;
  const fact = (label: string, text: string | undefined, isFormula = false): readonly Told[] =>
    text === undefined ? [] : [{ kind: 'fact', label, text, isFormula }];
  return [
    { kind: 'title', name, also: name === term.name ? also.filter(other => other !== name) : [] },
    { kind: 'words', text: capital(meaning) },
    ...fact('Formula', formula, formula !== undefined && !/[a-z]{2,}.*[;,:]/.test(formula)),
    ...fact('Unit', unit),
    ...fact('Sign', sign),
  ];
}

export function toldOfInstrument({ name, also, meaning, caution }: Instrument): readonly Told[] {
  const told: readonly Told[] = [
    { kind: 'title', name, also },
    { kind: 'words', text: capital(meaning) },
  ];
  return caution === null
    ? told
    : [...told, { kind: 'fact', label: 'Caution', text: caution, isFormula: false }];
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** How a claim follows, or what is missing for it. */
function toldOfClaim(near: NearBlocks, block: number, claim: Claim): readonly Told[] {
  const check = near.check();
  // A claim about another block is worked where that block has its records.
  const home = ownerOf(check.facts.block(block), claim.subject);
  if (home === null) return [];
  const answer = home.facts.value(home.subject);
  if (!answer.ok) {
    const why = lackText(answer.lack);
    const told = why ?? 'this rests on a line that is wrong; mend that first';
    return [{ kind: 'words', text: told }];
  }
  if (!mayTell(check.settings)) return [];
  const working = workingOf(check, home.facts.index, home.subject);
  const text = working === null ? '' : derivationText([working.derivation]);
  if (text !== '') return [{ kind: 'lines', text }];
  const value = valueHere(check, home.facts, home.subject, false);
  return value === null ? [] : [value];
}

const DIVISION_OF: Readonly<Record<string, Subject>> = {
  'main scale': { kind: 'division', division: 'main scale division', block: null },
  'vernier scale': { kind: 'division', division: 'vernier scale division', block: null },
  'linear scale': { kind: 'division', division: 'linear scale division', block: null },
  'circular scale': { kind: 'division', division: 'circular scale division', block: null },
  screw: { kind: 'term', term: 'pitch', row: null, block: null },
};

/** What a scale's line is there for: the value of its division. */
function scaleSubject(term: Term | null): Subject | null {
  return (term === null ? undefined : DIVISION_OF[term.name]) ?? null;
}

/** The value that a block gives a subject, with its error where it is a quantity of one's own. */
function valueHere(check: NoteCheck, facts: Facts, subject: Subject | null, isNamed: boolean): Told | null {
  if (subject === null) return null;
  const said = subject.kind === 'term' && subject.term === 'closed' ? ZERO_ERROR : subject;
  const value = valueWithError(check, facts, said);
  if (value === null || value === shortName(said)) return null;
  const name = isNamed || said !== subject ? `${shortName(said)} = ` : '';
  const block = blockOf(subject);
  return {
    kind: 'fact',
    label: block === null ? 'In this block' : `In ${block}`,
    text: `${name}${value}`,
    isFormula: true,
  };
}

const ZERO_ERROR: Subject = { kind: 'term', term: 'zero error', row: null, block: null };

function shortName(subject: Subject): string {
  if (subject.kind === 'division') return `1 ${termOfSubject(subject)!.also[0]}`;
  return subject.kind === 'term' ? subject.term : subject.kind === 'own' ? subject.name : '';
}
