import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { startServer } from '../lsp/server.ts';
import { configsOnDisk } from './configs-on-disk.ts';

// How the editor speaks to it (`--stdio`, `--node-ipc`) stands among the words of the command line.
startServer(createConnection(ProposedFeatures.all), configsOnDisk());
