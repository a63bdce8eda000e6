import type {
  CancellationToken,
  ClientCapabilities,
  Connection,
  ResponseError,
  ServerCapabilities,
  TextDocuments,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { ClosedNotes } from './closed-notes.ts';
import type { OpenNote } from './open-notes.ts';
import type { SettingsStore } from './settings-store.ts';

/** One thing that an editor can ask for: how it is announced, and what listens for it. */
export interface Feature {
  announced(client: ClientCapabilities, offers: Offers): Partial<ServerCapabilities>;
  listen(server: Server): void;
}

/** What an editor can do beyond the protocol, by its options at the start. */
export interface Offers {
  /** Whether it finds and reads the notes of the workspace: `leastwise/notes`, `leastwise/read`. */
  readonly notes: boolean;
}

/** What all features share. */
export interface Server {
  readonly connection: Connection;
  readonly client: ClientCapabilities;
  readonly documents: TextDocuments<TextDocument>;
  readonly offers: Offers;
  readonly settings: SettingsStore;
  readonly closedNotes: ClosedNotes;
  /** The open note of an address; null where none is open, or what is open is no note. */
  note(uri: string): OpenNote | null;
  /**
   * A handler that answers `none`, and says so in the log, where the work fails: no note ends the server. It waits
   * until the settings of the note that is asked about are known.
   */
  answering<Params, Result>(
    what: string,
    none: Result,
    work: (params: Params) => Result | ResponseError<never>,
  ): (params: Params, token: CancellationToken) => Answered<Result>;
}

/** An answer, or one that comes later. */
export type Answered<Result> = Result | ResponseError<never> | Promise<Result | ResponseError<never>>;
