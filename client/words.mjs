/**
 * The words that the client says, for whoever translates them: each stands for itself.
 *
 * @param {readonly string[]} sources the texts of its source files
 */
export function wordsOf(sources) {
  const words = sources.flatMap(source =>
    [...source.matchAll(/l10n\.t\(\s*(['"])(.*?)\1/g)].map(([, , text]) => text),
  );
  return Object.fromEntries([...new Set(words)].sort().map(text => [text, text]));
}
