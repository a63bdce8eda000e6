import { l10n, window } from 'vscode';
import { CloseAction, ErrorAction, type ErrorHandler } from 'vscode-languageclient';

/** A server that ends this often within that time, in milliseconds, would only end again. */
const MOST_ENDS = 5;
const WITHIN = 180_000;

/** Starts the server again when it has ended by itself; says so once, and once more where it is in vain. */
export function afterACrash(restart: () => void, gaveUp: () => void): ErrorHandler {
  const ends: number[] = [];
  const again = l10n.t('Restart the server');
  return {
    error: (_error, _message, count) => ({
      action: count !== undefined && count <= 3 ? ErrorAction.Continue : ErrorAction.Shutdown,
      handled: true,
    }),
    closed() {
      const now = Date.now();
      ends.push(now);
      if (ends.filter(end => now - end < WITHIN).length >= MOST_ENDS) {
        gaveUp();
        window
          .showErrorMessage(
            l10n.t('leastwise ended several times and was left alone: notes are not checked'),
            again,
          )
          .then(chosen => chosen === again && restart());
        return { action: CloseAction.DoNotRestart, handled: true };
      }
      if (ends.length === 1)
        window.showWarningMessage(l10n.t('leastwise ended unexpectedly and was started again'));
      return { action: CloseAction.Restart, handled: true };
    },
  };
}
