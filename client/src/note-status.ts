import { Disposable, LanguageStatusSeverity, l10n, languages, type TextDocument, window } from 'vscode';
import type { NoteFilter } from './markdown-notes.ts';
import { ruleOf } from './rule-links.ts';

/** What stands beside the language of a note: how many findings it has, and whether it is being looked at. */
export interface NoteStatus extends Disposable {
  /** Shows that a note is looked at for as long as that lasts. */
  whileChecking<Result>(check: PromiseLike<Result>): Promise<Result>;
  /** What was found in the whole workspace, for whoever looks closer. */
  sayOfWorkspace(result: string): void;
  /** Says that nothing is checked at present, and offers what helps; null when all is well again. */
  say(trouble: string | null): void;
}

/** Short, for the editor cuts off what does not fit. */
const PROBLEMS = { title: l10n.t('Problems'), command: 'workbench.actions.view.problems' };
const RESTART = { title: l10n.t('Restart the server'), command: 'leastwise.restartServer' };

export function noteStatus(selector: readonly NoteFilter[]): NoteStatus {
  const item = languages.createLanguageStatusItem('leastwise.note', selector);
  item.name = 'leastwise';
  let checks = 0;
  let trouble: string | null = null;
  let detail = '';
  const show = () => {
    item.busy = trouble === null && checks > 0;
    item.severity = trouble === null ? LanguageStatusSeverity.Information : LanguageStatusSeverity.Error;
    item.text = trouble ?? countOf(window.activeTextEditor?.document);
    item.detail = detail;
    item.command = trouble === null ? PROBLEMS : RESTART;
  };
  const listening = Disposable.from(
    item,
    window.onDidChangeActiveTextEditor(show),
    languages.onDidChangeDiagnostics(({ uris }) => {
      const shown = window.activeTextEditor?.document.uri.toString();
      if (uris.some(uri => uri.toString() === shown)) show();
    }),
  );
  show();
  return {
    async whileChecking(check) {
      checks += 1;
      show();
      try {
        return await check;
      } finally {
        checks -= 1;
        show();
      }
    },
    sayOfWorkspace(result) {
      detail = l10n.t('Workspace: {0}', result);
      show();
    },
    say(text) {
      trouble = text;
      show();
    },
    dispose: () => listening.dispose(),
  };
}

function countOf(document: TextDocument | undefined): string {
  if (document === undefined) return l10n.t('No note');
  const count = languages.getDiagnostics(document.uri).filter(each => ruleOf(each) !== null).length;
  if (count === 0) return l10n.t('Nothing to correct in this note');
  return count === 1 ? l10n.t('1 finding in this note') : l10n.t('{0} findings in this note', count);
}
