import { isAboutFormula } from '../language/claim.ts';
import type { Facts } from '../language/facts.ts';
import { ownerOf } from '../language/facts-error.ts';
import type { Claim, Subject } from '../language/measurement.ts';
import { subjectKey } from '../language/names.ts';

/** A subject as the formulas of a block name it: `D`, `observed reading of plate`, `mean of T`. */
export function nameIn(facts: Facts, subject: Subject): string {
  const symbol = symbolFor(facts, subject);
  return symbol ?? fullNameIn(facts, subject);
}

/** A subject as the left side of a claim names it: by its full term, never by a symbol for it. */
export function fullNameIn(facts: Facts, subject: Subject): string {
  switch (subject.kind) {
    case 'term':
      return `${subject.term}${place(facts, subject)}`;
    case 'own':
      return `${subject.name}${place(facts, subject)}`;
    case 'division':
      return `1 ${subject.division}${place(facts, { ...subject, row: null })}`;
    case 'count':
      return 'N';
    case 'statistic':
      return `${subject.statistic} of ${nameIn(facts, subject.of)}${from(facts, subject)}`;
    case 'unknown':
      return subject.word;
  }
}

/** What a heading calls a subject: `Density rho`, `Mean absolute error of T`, `g`. */
export function titleOf(facts: Facts, subject: Subject): string {
  const claim = claimOf(facts, subject);
  if (claim !== null && isAboutFormula(claim)) return claim.subjectText;
  const isWorded = subject.kind === 'own' && claim !== null && claim.times === null;
  const text =
    isWorded && !subject.name.includes(' ') ? claim.subjectText.trim() : fullNameIn(facts, subject);
  return text === '' || (subject.kind === 'own' && text === subject.name && !text.includes(' '))
    ? nameIn(facts, subject)
    : text.charAt(0).toUpperCase() + text.slice(1);
}

/** The first claim of a block about a subject, its question aside; null where there is none. */
export function claimOf(facts: Facts, subject: Subject): Claim | null {
  const key = subjectKey(subject);
  return facts.measurement.claims.find(claim => subjectKey(claim.subject) === key) ?? null;
}

/** A subject of another block as this one would have to call it. */
export function nameFrom(home: Facts, facts: Facts, subject: Subject): string {
  if (home === facts) return nameIn(facts, subject);
  const { name } = facts.measurement;
  return name === null ? fullNameIn(facts, subject) : `${fullNameIn(facts, subject)} of ${name}`;
}

function symbolFor(facts: Facts, subject: Subject): string | null {
  if (subject.kind === 'own' || subject.kind === 'unknown') return null;
  const key = subjectKey(subject);
  for (const [symbol, named] of facts.measurement.symbols) if (subjectKey(named) === key) return symbol;
  return null;
}

function place(
  facts: Facts,
  subject: { readonly row: number | null; readonly block: string | null },
): string {
  const home = subject.block === null ? facts : facts.note.named(subject.block);
  const label = subject.row === null ? null : home?.measurement.rows[subject.row - 1]?.label;
  const row = subject.row === null ? '' : ` of ${label ?? `row ${subject.row}`}`;
  return `${row}${subject.block === null ? '' : ` of ${subject.block}`}`;
}

function from(facts: Facts, subject: Extract<Subject, { readonly kind: 'statistic' }>): string {
  if (subject.from === null) return '';
  if (subject.from.kind === 'literal' || subject.from.kind === 'name') return ` from ${subject.from.text}`;
  const typed = / from (.+)$/i.exec(claimOf(facts, subject)?.subjectText ?? '')?.[1];
  return ` from ${typed ?? 'the accepted value'}`;
}

/** A subject in the block that it belongs to, as that block calls it; null for one that no block has. */
export function atHome(
  facts: Facts,
  subject: Subject,
): { readonly facts: Facts; readonly subject: Subject } | null {
  return ownerOf(facts, subject);
}
