import { chromium } from 'playwright-core';

const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/**
 * A browser without a window; the one who opens it closes it.
 *
 * @param {{ browser: string }} editor
 */
export function openBrowser({ browser }) {
  return chromium.launch({ executablePath: browser, args: FLAGS });
}
