import type {
  WorkspaceDocumentDiagnosticReport,
  WorkspaceFullDocumentDiagnosticReport,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { checkNote } from '../checks/check.ts';
import type { Server } from './feature.ts';
import { diagnosticsOf } from './note-diagnostics.ts';
import { textDigest } from './text-digest.ts';

/** How many notes the editor is asked for at once. */
const AT_ONCE = 4;

/** How many notes are told together. */
const TOGETHER = 50;

type Report = WorkspaceDocumentDiagnosticReport;
type FullReport = WorkspaceFullDocumentDiagnosticReport;

/** What the editor has been told of each note, by the ids of these reports. */
export type Told = ReadonlyMap<string, string>;

/** The notes of the workspace that nobody has opened. The editor finds and reads them; here they are checked. */
export interface ClosedNotes {
  /**
   * Tells what the editor does not know yet, a few notes at a time, until all is told or `isOver` says to end.
   *
   * Gives how many reports that were.
   */
  tellNews(told: Told, tell: (reports: Report[]) => void, isOver: () => boolean): Promise<number>;
  /** What is found in one note of the workspace as it is saved; null for any other. */
  report(uri: string): Promise<FullReport | null>;
  /** These notes were created, changed or deleted; null where any of them may have been. */
  changed(uris: readonly string[] | null): void;
  /** A note was closed, so that it is to be told of here from now on, whatever was told before. */
  closed(uri: string): void;
}

export function closedNotes({
  connection,
  documents,
  settings,
}: Pick<Server, 'connection' | 'documents' | 'settings'>): ClosedNotes {
  /** Null until the editor has said which there are. */
  let known: Set<string> | null = null;
  /** The answer that is waited for. */
  let finding: Promise<unknown> | null = null;
  /** Notes that were named as created or changed before it has come. */
  const named = new Set<string>();
  /** Whether anybody wants to know of closed notes. */
  let isWanted = false;
  /** The id of the last report on a note, and whether there was nothing to report. */
  const last = new Map<string, { readonly id: string; readonly isQuiet: boolean }>();
  const stale = new Set<string>();
  /** Notes to be told of in full, for what the editor shows of them may come from when they were open. */
  const owed = new Set<string>();
  /** Notes that are gone, with the id of the report which was then taken back. */
  const takenBack = new Map<string, string>();

  const isOpen = (uri: string): boolean => documents.get(uri) !== undefined;

  /** Has the editor say which notes there are, unless it has; one who asks meanwhile waits for the same answer. */
  async function findNotes(): Promise<void> {
    isWanted = true;
    while (known === null) {
      finding ??= asked<unknown>('leastwise/notes', undefined);
      const own: Promise<unknown> = finding;
      const uris = await own;
      // It may be out of date already, or somebody else was first.
      if (finding !== own) continue;
      finding = null;
      const found = new Set(named);
      for (const uri of Array.isArray(uris) ? uris : []) if (typeof uri === 'string') found.add(uri);
      named.clear();
      for (const uri of found) stale.add(uri);
      for (const uri of last.keys()) if (!found.has(uri)) last.delete(uri);
      known = found;
    }
  }

  async function asked<Answer>(method: string, params: object | undefined): Promise<Answer | null> {
    try {
      return await connection.sendRequest<Answer>(method, params);
    } catch (error) {
      connection.console.error(`the editor did not hand the notes over: ${String(error)}`);
      return null;
    }
  }

  async function report(uri: string): Promise<FullReport | null> {
    const own = await settings.of(uri);
    if (settings.isIgnored(uri)) return null;
    const answer = await asked<{ readonly text?: unknown }>('leastwise/read', { uri });
    const text = answer?.text;
    if (typeof text !== 'string') return null;
    const document = TextDocument.create(uri, 'markdown', 0, text);
    const items = diagnosticsOf({ document, checked: checkNote(text, own) });
    return { kind: 'full', uri, version: null, resultId: textDigest(JSON.stringify(own), text), items };
  }

  /** What is new about one note; null where nothing is to be told. */
  async function news(uri: string, told: Told): Promise<Report | null> {
    stale.delete(uri);
    if (isOpen(uri)) return null;
    // One that was closed and does not belong to the workspace, or is not to be checked in it, is nobody's business.
    const now = known === null || known.has(uri) ? await report(uri) : null;
    // It may have been opened in the meantime.
    if (isOpen(uri)) return null;
    const before = told.get(uri);
    const isOwed = owed.delete(uri);
    if (now === null) {
      known?.delete(uri);
      last.delete(uri);
      return before === undefined && !isOwed ? null : takeBack(uri, before);
    }
    takenBack.delete(uri);
    const { resultId: id = '', items } = now;
    last.set(uri, { id, isQuiet: items.length === 0 });
    if (id === before && !isOwed) return { kind: 'unchanged', uri, version: null, resultId: id };
    return before === undefined && !isOwed && items.length === 0 ? null : now;
  }

  function takeBack(uri: string, id: string | undefined): Report {
    if (id !== undefined) takenBack.set(uri, id);
    return { kind: 'full', uri, version: null, items: [] };
  }

  /** Reports of notes that the editor still shows and that are not there any more. */
  function gone(told: Told): Report[] {
    return [...told]
      .filter(([uri, id]) => !known?.has(uri) && !stale.has(uri) && !isOpen(uri) && takenBack.get(uri) !== id)
      .map(([uri, id]) => takeBack(uri, id));
  }

  /** What was told and did not arrive, or has arrived and is out of date, is looked at again. */
  function markUnknown(told: Told): void {
    for (const [uri, { id, isQuiet }] of last) {
      const has = told.get(uri);
      if (has !== id && !(isQuiet && has === undefined) && !isOpen(uri)) stale.add(uri);
    }
  }

  return {
    report: async uri => (known?.has(uri) ? report(uri) : null),
    async tellNews(told, tell, isOver) {
      await findNotes();
      if (isOver()) return 0;
      markUnknown(told);
      let count = 0;
      const send = (reports: Report[]): void => {
        if (reports.length === 0) return;
        count += reports.length;
        tell(reports);
      };
      send(gone(told));
      while (stale.size > 0 && known !== null && !isOver()) {
        const next = [...take(stale, TOGETHER)];
        const reports = await inTurns(next, uri => news(uri, told));
        if (isOver()) {
          for (const uri of next) stale.add(uri);
          break;
        }
        send(reports.filter(each => each !== null));
      }
      return count;
    },
    changed(uris) {
      if (uris === null) {
        known = null;
        finding = null;
      } else
        for (const uri of uris) {
          (known ?? named).add(uri);
          stale.add(uri);
        }
    },
    closed(uri) {
      if (!isWanted) return;
      owed.add(uri);
      stale.add(uri);
    },
  };
}

function take(from: ReadonlySet<string>, most: number): readonly string[] {
  const taken: string[] = [];
  for (const each of from) {
    if (taken.length === most) break;
    taken.push(each);
  }
  return taken;
}

/** The results of some work, a few pieces of it at once. */
async function inTurns<Item, Result>(
  items: readonly Item[],
  work: (item: Item) => Promise<Result>,
): Promise<readonly Result[]> {
  const results: Result[] = [];
  let next = 0;
  const turn = async (): Promise<void> => {
    while (next < items.length) {
      const at = next;
      next += 1;
      results[at] = await work(items[at]!);
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, turn));
  return results;
}
