import { command } from '../hands.mjs';
import { giveBackKeys, previewOf, until } from './preview-editor.mjs';

/** The editor's own themes as its list names them, by the names of their pictures, and what a preview is told of each. */
const THEMES = {
  dark: ['Dark 2026', 'vscode-dark'],
  light: ['Light 2026', 'vscode-light'],
  'dark-modern': ['Dark Modern', 'vscode-dark'],
  'light-modern': ['Light Modern', 'vscode-light'],
  'high-contrast': ['Dark High Contrast', 'vscode-high-contrast'],
  'high-contrast-light': ['Light High Contrast', 'vscode-high-contrast-light'],
};

/**
 * How a preview looks in each theme: chosen in the editor one after the other while a preview is shown.
 *
 * A preview is told the colours of a theme as properties and classes; with these it can be dressed as in that theme.
 */
export async function themeLooks(page, words) {
  const looks = {};
  for (const [name, [title, mark]] of Object.entries(THEMES)) {
    await giveBackKeys(page);
    await command(page, 'Preferences: Color Theme');
    const input = page.locator('.quick-input-widget input[placeholder*="Select Color Theme"]');
    await input.waitFor();
    await input.fill(title);
    const row = page.locator('.quick-input-list .monaco-list-row', {
      has: page.getByText(title, { exact: true }),
    });
    await row.first().click();
    const look = await until(
      `the preview in ${title}`,
      async () => await lookOf(await previewOf(page, words)).catch(() => null),
      each => each?.classes.split(' ').includes(mark) && !isKnown(looks, each),
    );
    looks[name] = look;
  }
  return looks;
}

/** Dresses a preview as in a theme; its ground is told as well, which the editor has behind it. */
export async function dressed(frame, look) {
  await frame.evaluate(({ properties, classes, data }) => {
    document.documentElement.style.cssText = `${properties};background-color:var(--vscode-editor-background)`;
    document.body.className = classes;
    Object.assign(document.body.dataset, data);
  }, look);
}

function isKnown(looks, { properties }) {
  return Object.values(looks).some(look => look.properties === properties);
}

async function lookOf(frame) {
  return await frame.evaluate(() => ({
    properties: document.documentElement.style.cssText,
    classes: document.body.className,
    data: { ...document.body.dataset },
  }));
}
