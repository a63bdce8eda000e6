import type { Measurement } from '../../language/measurement.ts';
import type { WorkingComment } from '../../language/working-comments.ts';
import type { Finding } from '../finding.ts';
import { findingAt } from '../finding-from.ts';
import type { NoteCheck } from '../note-check.ts';
import type { Rule } from '../rule.ts';
import { workingState } from '../working-state.ts';

export const staleWorking: Rule = {
  name: 'stale-working',
  severity: 'warning',
  summary: 'the working below the block no longer belongs to it',
  explanation: `A working that leastwise wrote below a block stands between two comment lines. The first one names the
block and holds six digits that were made of the block's facts: of the values that its records determine, of its
question and its key. When a record changes, these digits no longer fit, and the working may say what is not so any
more. \`leastwise work --refresh\` writes it anew. Its words may be changed by hand as you like; that is never flagged,
and nothing renews such a working while the digits fit.

A working whose block is gone, or whose end line is missing, stands twice or stands in another list or quote, is flagged
as well, and is never written over.`,
  example: `\`\`\`measurement tool-wall
main scale: 1 mm = 1 MSD
vernier scale: 20 VSD = 19 MSD
main scale reading: 8 mm
coinciding division: 4
\`\`\`

<!-- working: tool-wall 3f2a9c -->
<!--^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ warning stale-working -->

With the sixth line in coincidence the wall measures 8.30 mm.

<!-- end working -->
`,
  run(note) {
    return note.comments.flatMap(comment => (comment.kind === 'working' ? judged(note, comment) : []));
  },
};

function judged(note: NoteCheck, comment: WorkingComment): readonly Finding[] {
  const state = workingState(note, comment);
  const measurement = state.kind === 'no-block' || state.block === null ? null : blockAt(note, state.block);
  const find = (message: string): readonly Finding[] => [
    findingAt(staleWorking, measurement, comment.opening, { message, related: relatedTo(measurement) }),
  ];
  switch (state.kind) {
    case 'fits':
      return [];
    case 'stale':
      return find(staleText(comment, called(measurement)));
    case 'no-block':
      return find(
        comment.name === null
          ? 'no block stands above this working, so nothing says whether it still holds'
          : `the note has no block ${comment.name}, so nothing says whether this working still holds`,
      );
    case 'unclear':
      // Where a part of the note was too much to read, the end may stand there.
      return comment.trouble === 'no-end' && note.problems.length > 0 ? [] : find(unclearText(comment));
  }
}

function blockAt(note: NoteCheck, block: number): Measurement | null {
  return note.measurements[block] ?? null;
}

function called(measurement: Measurement | null): string {
  return measurement?.name == null ? 'the block above' : `the block ${measurement.name}`;
}

function staleText({ digest }: WorkingComment, block: string): string {
  return digest === null
    ? `this line does not hold the six digits that say for which values of ${block} the working was written, so it may no longer hold`
    : `${block} has changed since this working was written, so the working may no longer hold`;
}

function unclearText({ trouble }: WorkingComment): string {
  switch (trouble) {
    case 'two-ends':
      return 'two lines <!-- end working --> follow this working, so nobody can tell where it ends: keep the right one';
    case 'end-elsewhere':
      return 'the line <!-- end working --> of this working stands in another list or quote, so nobody can tell where it ends: set it as this line is set';
    case 'no-end':
    case null:
      return 'this working has no end: the line <!-- end working --> is missing below it';
  }
}

/** The line that opens the block, for whoever wants to look at it. */
function relatedTo(measurement: Measurement | null): Finding['related'] {
  return measurement === null
    ? []
    : [{ span: measurement.fence.infoSpan, message: 'the block that it belongs to' }];
}
