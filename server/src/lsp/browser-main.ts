import {
  BrowserMessageReader,
  BrowserMessageWriter,
  createConnection,
  ProposedFeatures,
} from 'vscode-languageserver/browser';
import { startServer } from './server.ts';

// A worker's own name for itself.
const worker = globalThis as unknown as ConstructorParameters<typeof BrowserMessageReader>[0];

startServer(
  createConnection(ProposedFeatures.all, new BrowserMessageReader(worker), new BrowserMessageWriter(worker)),
);
