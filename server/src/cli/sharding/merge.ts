import { complain, type ExitStatus } from '../complain.ts';
import { type Output, standardOutput } from '../output.ts';
import { tooManyWarnings } from '../too-many-warnings.ts';
import { belongingTogether } from './belonging-together.ts';
import type { Totals } from './share-closing.ts';
import { OPENING, type ShareReport, shareReport } from './share-report.ts';

/**
 * Puts the shares of a bank together and prints the JSON document that one run over all of it would have printed, byte
 * for byte; gives the status of that run. Nothing is printed where a share is missing, comes twice, is of another bank, or
 * is not whole.
 */
export async function merge(paths: readonly string[], mostWarnings: number | null): Promise<ExitStatus> {
  const reports: ShareReport[] = [];
  const troubles: string[] = [];
  for (const path of paths) {
    const looked = shareReport(path);
    if (looked.ok) reports.push(looked.report);
    else troubles.push(looked.trouble);
  }
  const together = belongingTogether(reports, troubles.length > 0);
  for (const trouble of [...troubles, ...together.troubles]) complain(trouble);
  if (troubles.length > 0 || together.troubles.length > 0) return 2;

  const output = standardOutput();
  const totals = together.inOrder.map(report => report.totals).reduce(added);
  const changed = await printed(together.inOrder, totals, output);
  const failure = await output.end();
  const told = new Set(together.inOrder.flatMap(report => report.facts.troubles));
  const tooMany = tooManyWarnings(totals.warnings ?? 0, mostWarnings);
  for (const trouble of [...told, changed, failure, tooMany]) if (trouble !== null) complain(trouble);
  const isAble = told.size === 0 && changed === null && failure === null;
  return !isAble ? 2 : (totals.errors ?? 0) > 0 || tooMany !== null ? 1 : 0;
}

/** Prints the notes of all shares in the order of the bank; gives the sentence that says why it broke off, or null. */
async function printed(
  reports: readonly ShareReport[],
  totals: Totals,
  output: Output,
): Promise<string | null> {
  const shares = reports.map(report => ({
    report,
    notes: report.notes(),
    isMissing: missingPlaces(report.facts.without),
  }));
  let between = '\n';
  await output.write(OPENING);
  const rounds = Math.max(...reports.map(({ facts }) => facts.places));
  for (let round = 0; round < rounds; round++) {
    for (const { report, notes, isMissing } of shares) {
      if (round >= report.facts.places || isMissing(round)) continue;
      try {
        const next = notes.next();
        if (!next.done) await output.write(between + next.value);
        between = ',\n';
      } catch {
        return `${report.path} was changed while it was read, so what is printed is not whole`;
      }
    }
  }
  await output.write(`\n],"summary":${JSON.stringify(totals)}}\n`);
  return null;
}

/** Whether a place of a share has no note in its report; to be asked of the places in their order. */
function missingPlaces(
  without: readonly (readonly [from: number, count: number])[],
): (place: number) => boolean {
  let at = 0;
  return place => {
    for (let run = without[at]; run !== undefined && place >= run[0] + run[1]; run = without[++at]);
    const run = without[at];
    return run !== undefined && run[0] <= place;
  };
}

function added(one: Totals, other: Totals): Totals {
  return Object.fromEntries(Object.entries(one).map(([name, count]) => [name, count + (other[name] ?? 0)]));
}
