import type {
  CancellationToken,
  ClientCapabilities,
  Connection,
  ResponseError,
  ServerCapabilities,
  TextDocuments,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { OpenNote } from './open-notes.ts';

/** One thing that an editor can ask for: how it is announced, and what listens for it. */
export interface Feature {
  announced(client: ClientCapabilities): Partial<ServerCapabilities>;
  listen(server: Server): void;
}

/** What all features share. */
export interface Server {
  readonly connection: Connection;
  readonly client: ClientCapabilities;
  readonly documents: TextDocuments<TextDocument>;
  /** The open note of an address; null where none is open, or what is open is no note. */
  note(uri: string): OpenNote | null;
  /** A handler that answers `none`, and says so in the log, where the work fails: no note ends the server. */
  answering<Params, Result>(
    what: string,
    none: Result,
    work: (params: Params) => Result | ResponseError<never>,
  ): (params: Params, token: CancellationToken) => Result | ResponseError<never>;
}
