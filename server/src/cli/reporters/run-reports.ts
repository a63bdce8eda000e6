import type { Output } from '../output.ts';
import type { Summary } from '../summary.ts';
import { errorCode } from '../writing-trouble.ts';
import type { keptText } from './kept-text.ts';
import type { Reporter } from './reporter.ts';

/** All reports of a run, each on its way to where it belongs. */
export interface RunReports {
  readonly open: () => Promise<void>;
  /** What the reports say of one more note, in their order; of those that are silent nothing is written. */
  readonly add: (pieces: readonly string[]) => Promise<void>;
  /** Something that could not be done; a report that tells such things has it. */
  readonly trouble: (sentence: string) => void;
  /** Brings all of them to their end; gives the sentences that say which could not be written, and why. */
  readonly close: (summary: Summary) => Promise<readonly string[]>;
}

/** A reporter and where its report goes. */
export interface ReportOnItsWay {
  readonly reporter: Reporter;
  readonly output: Output;
  /** Whether the report says nothing of single notes. */
  readonly isSilent: boolean;
}

export async function runReports(reports: readonly ReportOnItsWay[]): Promise<RunReports> {
  const written = await Promise.all(reports.map(writtenReport));
  return {
    open: async () => {
      for (const { output, reporter } of reports) await output.write(reporter.opening);
    },
    add: async pieces => {
      for (const [at, { add }] of written.entries()) await add(pieces[at] ?? '');
    },
    trouble: sentence => {
      for (const { trouble } of written) trouble(sentence);
    },
    close: async summary => {
      const failures: string[] = [];
      for (const { close } of written) {
        const failure = await close(summary);
        if (failure !== null) failures.push(failure);
      }
      return failures;
    },
  };
}

interface WrittenReport {
  readonly add: (piece: string) => Promise<void> | undefined;
  readonly trouble: (sentence: string) => void;
  readonly close: (summary: Summary) => Promise<string | null>;
}

/** One report; what it keeps back is put by until all notes are in it. */
async function writtenReport({ reporter, output, isSilent }: ReportOnItsWay): Promise<WrittenReport> {
  const { keeps } = reporter;
  const add = (piece: string) => (isSilent ? undefined : output.write(reporter.add(piece)));
  if (keeps === undefined) {
    return {
      add,
      trouble: () => undefined,
      close: async summary => {
        await output.write(reporter.closing(summary));
        return output.end();
      },
    };
  }
  const { keptText } = await import('./kept-text.ts');
  const [later, troubles] = [store(keptText()), store(keptText())];
  let told = 0;
  return {
    add: async piece => {
      await add(piece);
      if (!isSilent) later.keep(keeps.later(piece));
    },
    trouble: sentence => {
      troubles.keep(keeps.trouble(sentence, told));
      told += 1;
    },
    close: async summary => {
      // What was lost is told where it would have stood, and no sign that belongs to it stays.
      if (later.failure() === null) await output.write(keeps.beforeLater());
      await later.pourInto(output);
      await output.write(keeps.beforeTroubles());
      const before = troubles.failure() === null ? told : 0;
      await troubles.pourInto(output);
      const failure = later.failure() ?? troubles.failure();
      const lost = `a part of a report could not be put by in the folder for temporary files (${failure}), so the report is not whole`;
      if (failure !== null) await output.write(keeps.trouble(lost, before));
      await output.write(reporter.closing(summary));
      if (failure === null) return output.end();
      await (output.drop ?? output.end)();
      return lost;
    },
  };
}

interface Store {
  readonly keep: (text: string) => void;
  readonly pourInto: (output: Output) => Promise<void>;
  /** Why the system would not keep it; null where it did. */
  readonly failure: () => string | null;
}

/** Text put by, and what went wrong with it. */
function store(kept: ReturnType<typeof keptText>): Store {
  let failure: string | null = null;
  const failed = (error: unknown) => {
    failure = errorCode(error) ?? String(error);
  };
  return {
    keep: text => {
      if (text === '' || failure !== null) return;
      try {
        kept.keep(text);
      } catch (error) {
        failed(error);
      }
    },
    pourInto: async output => {
      try {
        if (failure === null) for (const text of kept.pour()) await output.write(text);
      } catch (error) {
        failed(error);
      }
      kept.drop();
    },
    failure: () => failure,
  };
}
