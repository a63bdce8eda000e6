import type { NoteShare } from './bank/note-work.ts';
import { type CheckOptions, type CheckRun, checkRun } from './check-run.ts';
import { complain, type ExitStatus } from './complain.ts';
import { EMPTY_SUMMARY, type Summary, withCounts, withDeeds } from './summary.ts';
import { tooManyWarnings } from './too-many-warnings.ts';

/**
 * Checks notes and reports as it goes; no more than a few notes are held at a time. What cannot be read is told on
 * standard error, and the rest is checked all the same.
 */
export async function checkNotes(paths: readonly string[], options: CheckOptions): Promise<ExitStatus> {
  const begun = await checkRun(paths, options);
  if (!begun.ok) {
    complain(begun.trouble);
    return 2;
  }
  const { check } = begun;
  const telling = runTelling(check);
  const { summary, leftOut } = await dealWithAll(check, telling, emptySummary(options));
  await bringToAnEnd(check, telling, summary);
  if (telling.isAble() && summary.notes === 0 && leftOut > 0 && check.shard === null)
    telling.say(noneChecked(leftOut));
  const tooMany = tooManyWarnings(summary.warnings, options.maxWarnings);
  if (tooMany !== null) telling.say(tooMany);
  return !telling.isAble() ? 2 : summary.errors > 0 || tooMany !== null ? 1 : 0;
}

/** What a run has to say on standard error, without getting in the way of its bar. */
interface Telling {
  readonly say: (sentence: string) => void;
  /** Something that could not be done; the reports and the share have it as well. */
  readonly unable: (trouble: string) => void;
  /** What one note has to say; what is alike for many is said once. */
  readonly ofNote: (share: NoteShare) => void;
  /** Whether all could be done so far. */
  readonly isAble: () => boolean;
}

function runTelling({ run, shard, reports }: CheckRun): Telling {
  const toldOnce = new Set<string>();
  let able = true;
  const say = (sentence: string) => {
    run.clearTerminal();
    complain(sentence);
  };
  const unable = (trouble: string) => {
    able = false;
    shard?.troubled(trouble);
    reports.trouble(trouble);
    say(trouble);
  };
  const once = (sentence: string, tellIt: (sentence: string) => void) => {
    if (!toldOnce.has(sentence)) tellIt(sentence);
    toldOnce.add(sentence);
  };
  return {
    say,
    unable,
    ofNote: ({ troubles, configTroubles, notices, commonNotices }) => {
      for (const trouble of troubles) unable(trouble);
      for (const trouble of configTroubles) once(trouble, unable);
      for (const notice of notices) say(notice);
      for (const notice of commonNotices) once(notice, say);
    },
    isAble: () => able,
  };
}

/** Deals with note after note, and counts; `leftOut` says how many were ignored without a word. */
async function dealWithAll(
  { run, reports, output, baseline, shard, shownOnce }: CheckRun,
  telling: Telling,
  nothing: Summary,
): Promise<{ readonly summary: Summary; readonly leftOut: number }> {
  let summary = nothing;
  let leftOut = 0;
  await reports.open();
  for await (const dealt of run.dealt) {
    if (dealt.kind === 'trouble') {
      telling.unable(dealt.message);
      continue;
    }
    const share = shownOnce(dealt.share);
    telling.ofNote(share);
    shard?.dealtWith(share.counts !== null);
    if (share.counts === null) {
      if (share.notices.length === 0) leftOut += 1;
      continue;
    }
    summary = withDeeds(withCounts(summary, share.counts), share.seen?.findings.length ?? 0, share.fixes);
    if (share.seen !== null) baseline?.gather(share.seen);
    if (share.shown !== '') await output.write(share.shown);
    await reports.add(share.pieces);
  }
  return { summary, leftOut };
}

/** Ends the reports, and leaves the baseline and the cache as the next run is to find them: after a whole run only. */
async function bringToAnEnd(
  { run, reports, output, isAside, baseline, cache }: CheckRun,
  { say, unable }: Telling,
  summary: Summary,
): Promise<void> {
  if (run.wasInterrupted()) unable(interrupted(summary.notes));
  if (isAside) {
    const failure = await output.end();
    if (failure !== null) unable(failure);
  }
  for (const failure of await reports.close(summary)) unable(failure);
  if (baseline !== null && !run.wasInterrupted()) {
    const written = baseline.write();
    if (!written.ok) unable(written.trouble);
    else if (written.notice !== null) say(written.notice);
  }
  if (cache !== null && !run.wasInterrupted()) {
    const { sweepCache } = await import('./cache/sweep-cache.ts');
    sweepCache(cache);
  }
}

/** A folder of which nothing was checked must not pass for one in which all is right. */
function noneChecked(leftOut: number): string {
  const notes = leftOut === 1 ? 'the one note found is' : `all ${leftOut} notes found are`;
  return `nothing is checked: ${notes} left out by what leastwise is told to ignore`;
}

function interrupted(notes: number): string {
  const checked = notes === 1 ? '1 note was' : `${notes} notes were`;
  return `the check was interrupted: ${checked} checked, and the report holds no others`;
}

function emptySummary({ fix, baseline }: CheckOptions): Summary {
  return {
    ...EMPTY_SUMMARY,
    old: baseline === null ? null : 0,
    mended: fix === null ? null : { fixes: 0, notes: 0, isWritten: fix === 'write' },
  };
}
