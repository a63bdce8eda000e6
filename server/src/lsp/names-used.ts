import { namesIn } from '../engine/evaluation.ts';
import { unitWord } from '../engine/unit.ts';
import { chosenReading } from '../language/evaluate-in.ts';
import type { Stated, Subject } from '../language/measurement.ts';
import { nameTable } from '../language/name-table.ts';
import { blockKey, type Declarations, inBlock, labelKey, subjectKey } from '../language/names.ts';
import { tokensText } from '../language/statement-dress.ts';
import { joinSpans, type Span, type Token } from '../language/syntax.ts';
import { blockPlace, DEEPEST, labelPlace, type NamedPlace, type Naming, placeOfName } from './naming.ts';

/** The names of blocks, rows and quantities in a formula; `side` tells records, where a word after a number is a unit. */
export function namesUsedIn(
  naming: Naming,
  tokens: readonly Token[],
  side: 'record' | 'claim' | null,
): readonly NamedPlace[] {
  const table = nameTable(naming);
  const places: NamedPlace[] = [];
  for (let at = 0; at < tokens.length; at++) {
    const found = table.longestName(tokens, at);
    const subject = found === null ? undefined : table.subjects.get(found.key);
    if (found === null || subject === undefined) continue;
    if (!isUnitAt(naming, tokens, at, subject, side))
      places.push(...partsOf(naming, tokens.slice(at, at + found.length), subject));
    at += found.length - 1;
  }
  return places;
}

/** The names within a name, from its end: `observed reading` of `dish` of `spherometer`. */
function partsOf(naming: Naming, tokens: readonly Token[], subject: Subject): readonly NamedPlace[] {
  const places: NamedPlace[] = [];
  // `percentage difference of g from` a value.
  let rest = tokens.at(-1)?.text === 'from' ? tokens.slice(0, -1) : tokens;
  let owner: Declarations | undefined = naming.here;
  const target = targetOf(subject);
  if (target.block !== null) {
    const behind = behindOf(rest, text => blockKey(text) === blockKey(target.block ?? ''));
    if (behind !== null) {
      const place = blockPlace(naming, spanOfAll(behind), tokensText(behind), false);
      if (place !== null) places.push(place);
      owner = naming.note.get(blockKey(target.block));
      rest = rest.slice(0, -behind.length - 1);
    }
  }
  const labels = labelsFrom(naming, owner);
  const label =
    target.row === null ? null : behindOf(rest, text => labels?.labels.get(labelKey(text)) === target.row);
  if (label !== null && labels !== undefined && target.row !== null) {
    places.push(
      labelPlace(naming, labels, target.row, {
        spelling: tokensText(label),
        span: spanOfAll(label),
        isDeclaration: false,
      }),
    );
    rest = rest.slice(0, -label.length - 1);
  }
  // What is left is a name, or a statistic of one: `percentage error of rho`.
  const name = [rest, ...positionsOfOf(rest).map(at => rest.slice(at + 1))].flatMap(part =>
    part.length === 0 ? [] : (placeOfName(naming, spanOfAll(part), tokensText(part), false, owner) ?? []),
  );
  return name[0] === undefined ? places : [name[0], ...places];
}

/** The block, of those that a block uses, whose table has labelled rows. */
function labelsFrom({ note }: Naming, owner: Declarations | undefined): Declarations | undefined {
  let from = owner;
  for (let depth = 0; from !== undefined && from.labels.size === 0 && depth < DEEPEST; depth++)
    from = from.uses === null ? undefined : note.get(from.uses);
  return from;
}

function targetOf(subject: Subject): { readonly block: string | null; readonly row: number | null } {
  switch (subject.kind) {
    case 'statistic':
      return targetOf(subject.of);
    case 'term':
    case 'own':
      return subject;
    case 'division':
    case 'count':
      return { block: subject.block, row: null };
    case 'unknown':
      return { block: null, row: null };
  }
}

/** The tokens behind an "of" that satisfy `isName`, the fewest first. */
function behindOf(tokens: readonly Token[], isName: (text: string) => boolean): readonly Token[] | null {
  for (const at of positionsOfOf(tokens).reverse()) {
    const behind = tokens.slice(at + 1);
    if (behind.length > 0 && isName(tokensText(behind))) return behind;
  }
  return null;
}

function positionsOfOf(tokens: readonly Token[]): number[] {
  return tokens.flatMap((token, at) => (token.kind === 'word' && token.text === 'of' ? [at] : []));
}

/** Whether a word behind a number is its unit: always in a record, in a claim as its dimensions have it. */
export function isUnitAt(
  naming: Naming,
  tokens: readonly Token[],
  at: number,
  subject: Subject,
  side: 'record' | 'claim' | null,
): boolean {
  const token = tokens[at]!;
  if (side === null || tokens[at - 1]?.kind !== 'number' || unitWord(token.text) === null) return false;
  if (side === 'record') return true;
  const block = naming.declared.indexOf(naming.here);
  if (block === -1) return true;
  // Only here it takes more than the names.
  const { facts: note, measurements, fences } = naming.check();
  for (const index of [block, ...measurements.keys()].filter(at => at === block || fences <= at)) {
    const facts = note.block(index);
    for (const claim of facts.measurement.claims) {
      const link = claim.links.find(
        ({ span }) => span.start <= token.span.start && token.span.end <= span.end,
      );
      if (link?.content.kind !== 'stated') continue;
      const wanted = facts.value(claim.subject);
      return !usesName(
        chosenReading(facts, link.content.stated, wanted.ok ? wanted.quantity.dimension : null),
        index === block ? subject : inBlock(subject, naming.here.block ?? ''),
      );
    }
  }
  return true;
}

function usesName(expression: Stated['expression'], subject: Subject): boolean {
  return namesIn(expression).has(subjectKey(subject));
}

function spanOfAll(tokens: readonly Token[]): Span {
  return joinSpans(tokens[0]!.span, tokens.at(-1)!.span);
}
