import picomatch from 'picomatch/posix';

/**
 * Says which notes are left out, by their paths relative to the folder that the patterns belong to (with `/`).
 *
 * A pattern that matches a folder leaves out all that is in it: `drafts`, `drafts/`, `archive/*`.
 */
export function ignoredNotes(patterns: readonly string[]): (path: string) => boolean {
  if (patterns.length === 0) return () => false;
  const matches = picomatch(patterns.map(plainPattern), { dot: true });
  return path => {
    if (path.startsWith('../')) return false;
    for (let end = path.indexOf('/'); end !== -1; end = path.indexOf('/', end + 1))
      if (matches(path.slice(0, end))) return true;
    return matches(path);
  };
}

function plainPattern(pattern: string): string {
  return pattern
    .replaceAll('\\', '/')
    .replace(/^\.?\//, '')
    .replace(/\/$/, '');
}
