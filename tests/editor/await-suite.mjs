const END_WITHIN = 300_000;

/**
 * Opens an editor that runs a suite, and waits for the suite's end.
 *
 * @param {import('playwright-core').Page} page
 * @param {{ address: string, logs(): string }} where the editor with the suite, and what it wrote down
 * @returns {Promise<number>} 0 where every test held
 */
export async function awaitSuite(page, { address, logs }) {
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
      if (text.includes('suite │')) console.log(text);
    });
    await page.goto(address);
    const code = await ended;
    if (code !== 0) console.error(`\nThe editor wrote down\n${logs()}`);
    return code;
  } finally {
    clearTimeout(late);
  }
}
