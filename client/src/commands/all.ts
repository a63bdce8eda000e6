import { commands, type Disposable, type ExtensionContext } from 'vscode';
import type { NoteStatus } from '../note-status.ts';
import type { Service } from '../run-client.ts';
import { checkWorkspace } from './check-workspace.ts';
import { insertWorking } from './insert-working.ts';
import { newBlock } from './new-block.ts';
import { showRule } from './show-rule.ts';

/** What can be chosen by its title; the manifest says where each is on offer. */
export function registerCommands(
  context: ExtensionContext,
  service: Service,
  status: NoteStatus,
): Disposable[] {
  return [
    commands.registerCommand('leastwise.checkWorkspace', () => checkWorkspace(service, status)),
    commands.registerCommand('leastwise.insertWorking', insertWorking),
    commands.registerCommand('leastwise.newBlock', newBlock),
    commands.registerCommand('leastwise.showRule', (rule?: unknown) => showRule(context.extensionUri, rule)),
    commands.registerCommand('leastwise.restartServer', () => service.restart()),
  ];
}
