import { window } from 'vscode';

/** How long a word in passing stays, in milliseconds. */
const TOLD_FOR = 5000;

/** A word in passing: nobody has to close it. */
export function say(text: string): void {
  window.setStatusBarMessage(text, TOLD_FOR);
}
