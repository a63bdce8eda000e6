import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { makePackage } from '../../client/package.mjs';
import { tellingFaults } from './seen/apprentice.mjs';
import { hostileFaults } from './seen/hostile.mjs';
import { picturesIn } from './seen/pictures.mjs';
import { previewEditor } from './seen/preview-editor.mjs';
import { previewFaults } from './seen/previews.mjs';
import { exampleNotes, writeSpecialNotes } from './seen/special-notes.mjs';
import { standaloneFaults } from './seen/standalone.mjs';
import { typingFaults } from './seen/typing.mjs';
import { webPreviewFaults } from './seen/web-preview.mjs';
import { PROJECT } from './workspace.mjs';

/**
 * Looks at all figures and cards of the examples as a reader sees them, in the editor's own preview, and keeps pictures of
 * them; LEASTWISE_FIGURES, a pattern for names of parts, looks at those parts alone.
 *
 * @returns {Promise<number>} 0 where nothing is wrong with any of them
 */
export async function figuresSeen(editor, browser, say) {
  const vsix = makePackage(join(import.meta.dirname, 'out/leastwise-figures.vsix'));
  const library = await import(pathToFileURL(join(PROJECT, 'server/dist/index.mjs')));
  const examples = exampleNotes();
  const shown = await previewEditor(editor, browser, { vsix, prepare: writeSpecialNotes });
  const pictures = picturesIn(join(import.meta.dirname, 'out/figures'), shown.page);
  const parts = {
    'drawn as files': () => standaloneFaults(browser, shown.notes, examples, library),
    'written beside its preview': () => typingFaults(shown),
    'of a bad neighbour': () => hostileFaults(shown),
    'for an apprentice': () => tellingFaults(shown, examples),
    'in every theme': () => previewFaults(shown, examples, library, pictures),
    'in a browser alone': () => webPreviewFaults(browser, examples),
  };
  const wanted = new RegExp(process.env.LEASTWISE_FIGURES ?? '');
  let worst = 0;
  try {
    for (const [name, look] of Object.entries(parts)) {
      if (!wanted.test(name)) continue;
      const begun = Date.now();
      const faults = await look().catch(error => [error instanceof Error ? error.stack : String(error)]);
      const took = ((Date.now() - begun) / 1000).toFixed(1);
      say(
        faults.length === 0 ? `right  ${name} (${took} s)` : `WRONG  ${name} (${took} s)\n${counted(faults)}`,
      );
      if (faults.length > 0) worst = 1;
      if (faults.length > 0)
        await shown.page.screenshot({ path: join(pictures.folder, `wrong ${name}.png`) });
    }
  } finally {
    await shown.close();
  }
  say(`the pictures are in ${pictures.folder}`);
  return worst;
}

/** The same fault is said but once, with how often it was found. */
function counted(faults) {
  const counts = new Map();
  for (const fault of faults) counts.set(fault, (counts.get(fault) ?? 0) + 1);
  return [...counts].map(([fault, count]) => (count === 1 ? fault : `${fault} (${count} times)`)).join('\n');
}
