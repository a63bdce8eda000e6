import { describe, expect, it } from 'vitest';
import type { Action } from '../../server/src/actions/action.ts';
import { withEdits } from '../../server/src/actions/settled-edits.ts';
import { checkNote } from '../../server/src/checks/check.ts';
import type { CheckedNote } from '../../server/src/checks/finding.ts';
import type { Edit } from '../../server/src/language/problem.ts';
import type { Span } from '../../server/src/language/syntax.ts';
import { offersOf } from '../support/actions-of.ts';
import { moved } from '../support/fixes.ts';
import { DRESSES, NOTES_TO_MEND, noteText } from '../support/typed-notes.ts';

interface Offered {
  readonly action: Action;
  readonly edits: readonly Edit[];
}

/** Everything that is on offer at some place of a note, each once. */
function everyOffer(text: string, places: readonly Span[]): readonly Offered[] {
  const offers = offersOf(text);
  const found = new Map<string, Offered>();
  for (const place of places) {
    for (const action of offers(place)) {
      const edits = action.edits();
      found.set(`${action.title} ${JSON.stringify(edits)}`, { action, edits });
    }
  }
  return [...found.values()];
}

/** The ends of the lines that open a block, ask for something or offer a choice. */
function otherPlaces(text: string): readonly Span[] {
  return [...text.matchAll(/^.*(?:measurement|\?|find:|option \w:).*\S/gm)].map(({ index, 0: line }) => {
    const end = index + line.length;
    return { start: end, end };
  });
}

/** Where each rule first finds something. */
function firstPlaces(text: string): readonly Span[] {
  const { findings } = checkNote(text);
  return findings
    .filter(({ rule }, index) => findings.findIndex(other => other.rule === rule) === index)
    .map(({ span }) => span);
}

function standing(text: string): CheckedNote['findings'] {
  return checkNote(text).findings.filter(({ waived }) => waived === null);
}

/** Why edits cannot be made as they are: out of the note, or over each other. */
function misfit(text: string, edits: readonly Edit[]): string | null {
  let end = 0;
  for (const { span } of [...edits].sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end)) {
    if (span.start < end || span.end < span.start || text.length < span.end)
      return `${span.start} to ${span.end}`;
    end = span.end;
  }
  return null;
}

function lineEnds(text: string): string {
  return [...new Set(text.match(/\r\n|\r|\n/g))].join();
}

/** What is wrong with a quick fix: it leaves its finding, or a sure one finds fault where nothing was found before. */
function leftBy({ action, edits }: Offered, text: string, made: string): readonly string[] {
  const { finding } = action;
  if (action.kind !== 'quickfix' || finding === null) return [];
  const [start, end] = [moved(finding.span.start, edits), moved(finding.span.end, edits)];
  const stays = standing(made).some(
    ({ rule, span }) => rule === finding.rule && span.start <= end && start <= span.end,
  );
  return [
    ...(edits.length === 0 || made === text ? [`${action.title} does nothing`] : []),
    ...(stays ? [`${action.title} leaves ${finding.rule}: ${finding.message}`] : []),
  ];
}

describe('what is on offer in a note', () => {
  it.each(NOTES_TO_MEND)('can be done, and mends what it says: %s', path => {
    const text = noteText(path);
    const places = [...checkNote(text).findings.map(({ span }) => span), ...otherPlaces(text)];
    const faults: string[] = [];
    for (const offered of everyOffer(text, places)) {
      const { action, edits } = offered;
      const wrong = misfit(text, edits);
      if (wrong !== null) faults.push(`${action.title}: ${wrong}`);
      faults.push(...leftBy(offered, text, withEdits(text, edits)));
    }
    expect(faults).toEqual([]);
  });

  // The same in a quote, in a list and with other line ends; what a working says there may need other blank lines.
  it.each(NOTES_TO_MEND.filter(path => !path.startsWith('tests/')))(
    'is the same however it is kept: %s',
    path => {
      const text = noteText(path);
      for (const [name, dress] of Object.entries(DRESSES)) {
        const dressed = dress(text);
        const [plain, kept] = [text, dressed].map(each => everyOffer(each, firstPlaces(each)));
        expect(kept!.map(({ action }) => action.title)).toEqual(plain!.map(({ action }) => action.title));
        for (const [index, { action, edits }] of kept!.entries()) {
          const made = withEdits(dressed, edits);
          expect(lineEnds(made), `${action.title} ${name}`).toBe(lineEnds(dressed));
          expect(bare(made), `${action.title} ${name}`).toBe(
            bare(dress(withEdits(text, plain![index]!.edits))),
          );
        }
      }
    },
  );
});

/** A note without its blank lines, and without blanks at the ends of the others. */
function bare(text: string): string {
  return text.replace(/[ \t]+$/gm, '').replace(/^>?(?:\r?\n|\r)/gm, '');
}
