/** How many notes are asked about at once. */
const AT_ONCE = 4;

/** What a check of all notes has come to, so far as it went. */
export interface WorkspaceResult {
  readonly notes: number;
  /** As many as there are, or fewer where somebody has stopped it. */
  readonly checked: number;
  readonly findings: number;
  readonly notesWithFindings: number;
}

/**
 * Checks notes, a few at once, until all are done or somebody has enough; what was found by then counts.
 *
 * `check` gives the number of findings of a note; it may fail once it is to stop.
 */
export async function checkInTurn(
  notes: readonly string[],
  check: (uri: string) => Promise<number>,
  isStopped: () => boolean,
  done: (checked: number) => void,
): Promise<WorkspaceResult> {
  let next = 0;
  let checked = 0;
  let findings = 0;
  let notesWithFindings = 0;
  const turn = async (): Promise<void> => {
    for (let uri = notes[next]; uri !== undefined && !isStopped(); uri = notes[next]) {
      next += 1;
      const found = await check(uri);
      findings += found;
      notesWithFindings += found > 0 ? 1 : 0;
      checked += 1;
      done(checked);
    }
  };
  const turns = await Promise.allSettled(Array.from({ length: AT_ONCE }, turn));
  const failed = turns.find(each => each.status === 'rejected');
  if (failed !== undefined && !isStopped()) throw failed.reason;
  return { notes: notes.length, checked, findings, notesWithFindings };
}
