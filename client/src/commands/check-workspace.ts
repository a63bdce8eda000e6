import { type CancellationToken, commands, l10n, type Progress, ProgressLocation, window } from 'vscode';
import type { DocumentDiagnosticReport } from 'vscode-languageclient';
import type { NoteStatus } from '../note-status.ts';
import type { Running, Service } from '../run-client.ts';
import { say } from '../say.ts';

/** How many notes the server is asked about at once. */
const AT_ONCE = 4;

/** What a check of all notes has come to. */
export interface WorkspaceResult {
  readonly notes: number;
  readonly findings: number;
  readonly notesWithFindings: number;
}

/** Checks every note of the workspace; what is found stands among the problems. Gives null where it was cancelled. */
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
  let next = 0;
  let done = 0;
  let findings = 0;
  let notesWithFindings = 0;
  const turn = async () => {
    while (next < notes.length && !token.isCancellationRequested) {
      const uri = notes[next];
      next += 1;
      const report = await client.sendRequest<DocumentDiagnosticReport>(
        'textDocument/diagnostic',
        { textDocument: { uri } },
        token,
      );
      const found = report.kind === 'full' ? report.items.length : 0;
      findings += found;
      notesWithFindings += found > 0 ? 1 : 0;
      done += 1;
      progress.report({ message: l10n.t('{0} of {1}', done, notes.length), increment: 100 / notes.length });
    }
  };
  try {
    await Promise.all(Array.from({ length: AT_ONCE }, turn));
  } catch (error) {
    if (!token.isCancellationRequested) throw error;
  }
  return token.isCancellationRequested ? null : { notes: notes.length, findings, notesWithFindings };
}

function toldOf({ notes, findings, notesWithFindings }: WorkspaceResult): string {
  if (notes === 0) return l10n.t('The workspace has no notes');
  if (findings === 0) return l10n.t('Nothing to correct in {0} notes', notes);
  return findings === 1
    ? l10n.t('1 finding in {0} notes', notes)
    : l10n.t('{0} findings in {1} of {2} notes', findings, notesWithFindings, notes);
}
