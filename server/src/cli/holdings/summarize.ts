import { examineNote } from '../../checks/examine.ts';
import { type NoteHoldings, noteHoldings } from '../../checks/note-holdings.ts';
import type { Settings } from '../../checks/settings.ts';
import { interruption } from '../bank/interruption.ts';
import { lookingUp } from '../bank/note-shares.ts';
import { noteTasks } from '../bank/note-tasks.ts';
import { openedNote, ownFault } from '../bank/opened-note.ts';
import { coloursFor } from '../colours.ts';
import { complain, type ExitStatus } from '../complain.ts';
import { type ConfigChoice, noteSettings } from '../note-settings.ts';
import { standardOutput } from '../output.ts';
import { isTerminal } from '../terminal.ts';
import { wantsColour } from '../wants-colour.ts';
import { type BankHoldings, bankHoldings } from './bank-holdings.ts';

export interface SummarizeOptions {
  readonly format: 'pretty' | 'json';
  readonly stdinFilename: string | null;
  readonly config: ConfigChoice;
}

const NOTHING: NoteHoldings = { blocks: [], findings: [] };

/**
 * Tells what notes hold. Findings are counted and not shown, so they make no failure; what cannot be read is told on
 * standard error, and the rest is counted all the same.
 */
export async function summarize(paths: readonly string[], options: SummarizeOptions): Promise<ExitStatus> {
  const settingsOf = noteSettings(options.config);
  const gathered = bankHoldings();
  const told = new Set<string>();
  let notes = 0;
  let able = true;
  const unable = (trouble: string) => {
    able = false;
    if (!told.has(trouble)) complain(trouble);
    told.add(trouble);
  };
  const stop = interruption();
  const lookUp = lookingUp();
  for await (const found of noteTasks(paths, options.stdinFilename)) {
    stop.heed();
    await lookUp();
    if (stop.isAsked()) break;
    if (found.kind === 'trouble') {
      unable(found.message);
      continue;
    }
    const { path } = found.task;
    const note = await openedNote(found.task, settingsOf);
    if (!note.ok) {
      const { troubles = [], configTroubles = [], notices = [] } = note.told;
      for (const trouble of [...troubles, ...configTroubles]) unable(trouble);
      for (const notice of notices) complain(notice);
      continue;
    }
    const holdings = holdingsOrTrouble(path, note.text, note.settings);
    if (typeof holdings === 'string') {
      unable(holdings);
      continue;
    }
    gathered.add(path, holdings);
    notes += 1;
  }
  stop.forget();
  if (stop.isAsked()) unable(interrupted(notes));
  const output = standardOutput();
  await output.write(await written(gathered.all(), options.format));
  const failure = await output.end();
  if (failure !== null) unable(failure);
  return able ? 0 : 2;
}

function interrupted(notes: number): string {
  const counted = notes === 1 ? '1 note was' : `${notes} notes were`;
  return `the count was interrupted: ${counted} counted, and the summary holds no others`;
}

function holdingsOrTrouble(path: string, text: string, settings: Settings): NoteHoldings | string {
  try {
    const note = examineNote(text, settings);
    return note === null ? NOTHING : noteHoldings(note);
  } catch (error) {
    return ownFault(path, error);
  }
}

async function written(holdings: BankHoldings, format: SummarizeOptions['format']): Promise<string> {
  switch (format) {
    case 'json': {
      const { asJson } = await import('../reporters/json.ts');
      return `${asJson({ version: 1, ...holdings })}\n`;
    }
    case 'pretty': {
      const { holdingsTable } = await import('./holdings-table.ts');
      return holdingsTable(holdings, await coloursFor(wantsColour(process.env, await isTerminal(1))));
    }
  }
}
