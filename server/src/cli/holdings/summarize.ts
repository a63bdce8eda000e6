import { examineNote } from '../../checks/examine.ts';
import { type NoteHoldings, noteHoldings } from '../../checks/note-holdings.ts';
import type { Settings } from '../../checks/settings.ts';
import { noteTasks } from '../bank/note-tasks.ts';
import { openedNote, ownFault } from '../bank/opened-note.ts';
import { coloursFor } from '../colours.ts';
import { complain, type ExitStatus } from '../complain.ts';
import { keepMemoryFlat } from '../keep-memory-flat.ts';
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
/** From how many notes on memory matters more than a quick start. */
const A_BANK = 50;

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
  for await (const found of noteTasks(paths, options.stdinFilename)) {
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
    if (notes === A_BANK) await keepMemoryFlat();
  }
  const output = standardOutput();
  await output.write(await written(gathered.all(), options.format));
  const failure = await output.end();
  if (failure !== null) unable(failure);
  return able ? 0 : 2;
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
