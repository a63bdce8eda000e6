const END_WITHIN = 400_000;

/** What the suite says begins with this, for the editor talks too. */
const MARK = 'suite │ ';

/**
 * Opens an editor that runs a suite, and waits for the suite's end.
 *
 * @param {import('playwright-core').Page} page
 * @param {{ address: string, logs(): string, say(text: string): void }} where the editor with the suite, what it wrote
 * down, and who is told how it goes
 * @returns {Promise<number>} 0 where every test held
 */
export async function awaitSuite(page, { address, logs, say }) {
  let late;
  try {
    const ended = new Promise((resolve, reject) => {
      const giveUp = why => reject(new Error(`${why}\n${logs()}`));
      late = setTimeout(giveUp, END_WITHIN, `The suite did not end within ${END_WITHIN / 1000} s`);
      page.once('crash', () => giveUp('The browser broke down'));
      page.exposeFunction('codeAutomationExit', resolve).catch(reject);
    });
    await page.exposeFunction('codeAutomationLog', (_type, args) => {
      const text = args.join(' ');
      const at = text.indexOf(MARK);
      if (at >= 0) say(text.slice(at + MARK.length));
    });
    await page.goto(address);
    const code = await ended;
    if (code !== 0) say(`the editor wrote down\n${logs()}`);
    return code;
  } finally {
    clearTimeout(late);
  }
}
