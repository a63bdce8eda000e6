import type { BaseLanguageClient, LanguageClientOptions } from 'vscode-languageclient';

/** A server that is about to run, and what is left to do when it has ended. */
export interface Launched {
  readonly client: BaseLanguageClient;
  readonly clearAway: () => void;
}

/** How a server is made: a process on a desktop, a worker in a browser. */
export type Launch = (options: LanguageClientOptions) => Launched;
