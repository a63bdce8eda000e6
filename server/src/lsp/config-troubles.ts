import { type Connection, DiagnosticSeverity } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { ConfigFile } from '../config/config-file.ts';
import { rangeFrom, SOURCE } from './convert.ts';

/** A configuration file as the editor handed it over, with what is wrong with it. */
export interface ServedConfig {
  readonly uri: string;
  readonly text: string;
  readonly troubles: ConfigFile['troubles'];
}

/** Underlines what is wrong in the configuration files that are in use, and takes back what is not wrong any more. */
export function showConfigTroubles(connection: Connection, configs: readonly ServedConfig[]): void {
  const shown = shownBy.get(connection) ?? new Map<string, string>();
  shownBy.set(connection, shown);
  const now = new Map(configs.filter(({ troubles }) => troubles.length > 0).map(each => [each.uri, each]));
  for (const uri of shown.keys()) {
    if (now.has(uri)) continue;
    shown.delete(uri);
    send(connection, uri, []);
  }
  for (const [uri, config] of now) {
    if (shown.get(uri) === config.text) continue;
    shown.set(uri, config.text);
    const document = TextDocument.create(uri, 'json', 0, config.text);
    send(
      connection,
      uri,
      config.troubles.map(({ span, message }) => ({
        range: rangeFrom(document, span),
        severity: DiagnosticSeverity.Error,
        source: SOURCE,
        message,
      })),
    );
  }
}

/** What each editor is shown, by the files' addresses: the text that it was about. */
const shownBy = new WeakMap<Connection, Map<string, string>>();

function send(
  connection: Connection,
  uri: string,
  diagnostics: Parameters<Connection['sendDiagnostics']>[0]['diagnostics'],
): void {
  connection.sendDiagnostics({ uri, diagnostics }).catch(() => {
    // The editor is gone, as the end of the connection says anyway.
  });
}
