import type { NoteCheck } from '../checks/note-check.ts';
import type { Facts } from '../language/facts.ts';
import type { Claim } from '../language/measurement.ts';
import type { Edit } from '../language/problem.ts';
import { chainInLineEdits } from '../workings/chain-in-line.ts';
import { hasLinesToInsert, insertLinesEdits } from '../workings/insert-lines.ts';
import { insertWorkingEdits, renewWorkingEdits, workingBelow } from '../workings/insert-working.ts';
import { vernierDivisions, vernierRule } from '../workings/vernier-rule.ts';
import { workedSubjects } from '../workings/worked-subjects.ts';
import type { Way } from '../workings/working.ts';
import type { Action, ActionContext } from './action.ts';
import { blockAt, findingsAt, meets } from './places.ts';

/**
 * Writes the full working: as links of the line where the cursor stands, as lines for all that the block does not claim
 * yet, or as a worked solution below the block; and renews one that is stale.
 *
 * A vernier that can be worked out by its least count and by its scales as well is offered both ways.
 */
export function insertWorkings(context: ActionContext): readonly Action[] {
  const facts = blockAt(context);
  return [...renewals(context), ...(facts === null ? [] : insertions(context, facts))];
}

function renewals(context: ActionContext): readonly Action[] {
  const { note } = context;
  return findingsAt(context).flatMap((finding): readonly Action[] => {
    if (finding.rule !== 'stale-working') return [];
    const comment = note.comments.findIndex(
      ({ kind, opening }) => kind === 'working' && opening.start === finding.span.start,
    );
    // Where nobody can tell how far a working reaches it is never written over.
    if (comment === -1 || renewWorkingEdits(note, comment).length === 0) return [];
    return [
      {
        title: 'Renew the working',
        kind: 'quickfix',
        finding,
        isSure: true,
        edits: () => renewWorkingEdits(note, comment),
      },
    ];
  });
}

function insertions({ note, span }: ActionContext, facts: Facts): readonly Action[] {
  const block = facts.index;
  if (!workedSubjects(facts).some(subject => facts.value(subject).ok)) return [];
  const claim = facts.measurement.claims.find(({ span: at }) => meets(at, span));
  const hasWorking = workingBelow(note, block) !== null;
  return waysOf(note, facts).flatMap(({ way, words }): readonly Action[] => [
    ...(claim === undefined ? [] : chained(note, block, claim, way, words)),
    ...(hasLinesToInsert(note, block, { way })
      ? [rewriting(`Write out all steps of this block${words}`, () => insertLinesEdits(note, block, { way }))]
      : []),
    ...(hasWorking
      ? []
      : [
          rewriting(`Insert the worked solution below the block${words}`, () =>
            insertWorkingEdits(note, block, { way }),
          ),
        ]),
  ]);
}

/** The steps of a claim in its own line; on offer only where they say more than the line does. */
function chained(
  note: NoteCheck,
  block: number,
  claim: Claim,
  way: Way | null,
  words: string,
): readonly Action[] {
  const edits = chainInLineEdits(note, block, claim, { way });
  if (edits.length === 0) return [];
  return [rewriting(`Show the steps in this line${words}`, () => edits)];
}

/** Writes what no finding asks for. */
function rewriting(title: string, edits: () => readonly Edit[]): Action {
  return { title, kind: 'refactor.rewrite', finding: null, isSure: false, edits };
}

interface NamedWay {
  readonly way: Way | null;
  readonly words: string;
}

/** As the settings have it, and the other way as well where both hold; otherwise the one way that there is. */
function waysOf(note: NoteCheck, facts: Facts): readonly NamedWay[] {
  const isRead = workedSubjects(facts).some(
    subject => subject.kind === 'term' && subject.term === 'observed reading' && facts.value(subject).ok,
  );
  const isUsual = note.settings.way !== 'scales';
  const hasBoth = isRead && vernierDivisions(facts)?.base === 'main' && vernierRule(facts) !== 'odd';
  return hasBoth
    ? [
        { way: null, words: '' },
        isUsual
          ? { way: 'scales', words: ', by the scales themselves' }
          : { way: 'least-count', words: ', by the least count' },
      ]
    : [{ way: null, words: '' }];
}
