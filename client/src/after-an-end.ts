import { l10n, window } from 'vscode';
import { CloseAction, ErrorAction, type ErrorHandler } from 'vscode-languageclient';
import { countEnds } from './count-ends.ts';

/** How many messages in a row may go wrong before the server is taken for broken. */
const MOST_ERRORS = 3;

/**
 * Leaves it to whoever watches the client's state to start the server again: the client's own way loses a server that
 * ends while it starts.
 */
export const errorHandler: ErrorHandler = {
  error: (_error, _message, count) => ({
    action: count !== undefined && count <= MOST_ERRORS ? ErrorAction.Continue : ErrorAction.Shutdown,
    handled: true,
  }),
  closed: () => ({ action: CloseAction.DoNotRestart, handled: true }),
};

/** What is to be called when the server has ended by itself: starts it again, which is said once, or says that it is in vain. */
export function afterAnEnd(restart: () => void, giveUp: () => void): () => void {
  const ended = countEnds();
  return () => {
    switch (ended(Date.now())) {
      case 'leave-alone':
        giveUp();
        sayInVain(restart);
        return;
      case 'start-and-say':
        window.showWarningMessage(l10n.t('leastwise ended unexpectedly and was started again'));
        restart();
        return;
      case 'start':
        restart();
        return;
    }
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
