import { type CancellationToken, commands, l10n, type Progress, ProgressLocation, window } from 'vscode';
import type { DocumentDiagnosticReport } from 'vscode-languageclient';
import type { NoteStatus } from '../note-status.ts';
import type { Running, Service } from '../run-client.ts';
import { say } from '../say.ts';
import { checkInTurn, type WorkspaceResult } from './check-in-turn.ts';

/** Checks every note of the workspace, or those up to where somebody stops it; what is found stands among the problems. Gives null where nothing runs, or it was stopped before it began. */
export async function checkWorkspace(service: Service, status: NoteStatus): Promise<WorkspaceResult | null> {
  const running = service.running();
  if (running === null) {
    say(l10n.t('leastwise does not run at present'));
    return null;
  }
  const result = await window.withProgress(
    {
      location: ProgressLocation.Notification,
      title: l10n.t('Checking the notes of the workspace'),
      cancellable: true,
    },
    (progress, token) => checkAll(running, progress, token),
  );
  if (result === null) return null;
  const told = toldOf(result);
  status.sayOfWorkspace(told);
  say(told);
  if (result.findings > 0) await commands.executeCommand('workbench.actions.view.problems');
  return result;
}

async function checkAll(
  { client, files }: Running,
  progress: Progress<{ readonly message?: string; readonly increment?: number }>,
  token: CancellationToken,
): Promise<WorkspaceResult | null> {
  const notes = await files.handOverAll(token);
  if (notes === null) return null;
  const findingsOf = async (uri: string): Promise<number> => {
    const asked = { textDocument: { uri } };
    const report = await client.sendRequest<DocumentDiagnosticReport>(
      'textDocument/diagnostic',
      asked,
      token,
    );
    return report.kind === 'full' ? report.items.length : 0;
  };
  return await checkInTurn(
    notes,
    findingsOf,
    () => token.isCancellationRequested,
    checked =>
      progress.report({
        message: l10n.t('{0} of {1}', checked, notes.length),
        increment: 100 / notes.length,
      }),
  );
}

function toldOf({ notes, checked, findings, notesWithFindings }: WorkspaceResult): string {
  if (notes === 0) return l10n.t('The workspace has no notes');
  if (checked < notes)
    return l10n.t('Stopped after {0} of {1} notes, findings so far: {2}', checked, notes, findings);
  if (findings === 0) return l10n.t('Nothing to correct in {0} notes', notes);
  return findings === 1
    ? l10n.t('1 finding in {0} notes', notes)
    : l10n.t('{0} findings in {1} of {2} notes', findings, notesWithFindings, notes);
}
