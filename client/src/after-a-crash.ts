import { l10n, window } from 'vscode';
import { CloseAction, ErrorAction, type ErrorHandler } from 'vscode-languageclient';
import { countEnds } from './count-ends.ts';

/** How many messages in a row may go wrong before the server is taken for broken. */
const MOST_ERRORS = 3;

/** Starts the server again when it has ended by itself; says so once, and once more where it is in vain. */
export function afterACrash(restart: () => void, gaveUp: () => void): ErrorHandler {
  const ended = countEnds();
  return {
    error: (_error, _message, count) => ({
      action: count !== undefined && count <= MOST_ERRORS ? ErrorAction.Continue : ErrorAction.Shutdown,
      handled: true,
    }),
    closed() {
      switch (ended(Date.now())) {
        case 'leave-alone':
          gaveUp();
          sayInVain(restart);
          return { action: CloseAction.DoNotRestart, handled: true };
        case 'start-and-say':
          window.showWarningMessage(l10n.t('leastwise ended unexpectedly and was started again'));
          return { action: CloseAction.Restart, handled: true };
        case 'start':
          return { action: CloseAction.Restart, handled: true };
      }
    },
  };
}

function sayInVain(restart: () => void): void {
  const again = l10n.t('Restart the server');
  window
    .showErrorMessage(
      l10n.t('leastwise ended several times and was left alone: notes are not checked'),
      again,
    )
    .then(chosen => chosen === again && restart());
}
