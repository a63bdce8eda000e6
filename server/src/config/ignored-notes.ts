import picomatch from 'picomatch/posix';

/**
 * Says which notes are left out, by their paths relative to the folder that the patterns belong to (with `/`).
 *
 * A pattern that matches a folder is one for all that is in it: `drafts`, `drafts/`, `archive/*`. One behind a `!` takes
 * notes back in that those before it leave out; the last that matches a note holds.
 */
export function ignoredNotes(patterns: readonly string[]): (path: string) => boolean {
  if (patterns.length === 0) return () => false;
  const lines = patterns.map(matching);
  return path => {
    if (path.startsWith('../')) return false;
    const names = [path, ...foldersAbove(path)];
    return lines.findLast(({ matches }) => names.some(name => matches(name)))?.isOut ?? false;
  };
}

interface Matching {
  /** Whether it leaves out what it matches; else it takes that back in. */
  readonly isOut: boolean;
  readonly matches: (path: string) => boolean;
}

function matching(pattern: string): Matching {
  const isBack = takesBack(pattern);
  const plain = plainPattern(isBack ? pattern.slice(1) : pattern);
  return { isOut: !isBack, matches: picomatch(plain, { dot: true, nonegate: true }) };
}

/** Whether a pattern begins with the sign that takes notes back in; `!(a|b).md` names all notes but two. */
function takesBack(pattern: string): boolean {
  return pattern.startsWith('!') && !pattern.startsWith('!(');
}

function foldersAbove(path: string): readonly string[] {
  const folders: string[] = [];
  for (let end = path.indexOf('/'); end !== -1; end = path.indexOf('/', end + 1))
    folders.push(path.slice(0, end));
  return folders;
}

function plainPattern(pattern: string): string {
  return pattern
    .replaceAll('\\', '/')
    .replace(/^\.?\//, '')
    .replace(/\/$/, '');
}

/**
 * Why a pattern can match no note whatever is there, in a sentence; null where it may. `folder` is the whole path of the
 * one that it is counted from, where that is known.
 */
export function faultOfIgnored(pattern: string, folder: string | null): string | null {
  const named = takesBack(pattern) ? pattern.slice(1) : pattern;
  const plain = plainPattern(named);
  if (plain === '' || plain === '.') return 'this pattern names nothing';
  if (plain.split('/').includes('..'))
    return 'this pattern leads out of the folder that it is counted from, where it leaves out nothing';
  const isFromRoot = folder !== null && `/${plain}/`.startsWith(`/${plainPattern(folder)}/`);
  if ((isFromRoot && folder !== '/') || /^([A-Za-z]:|~)\//.test(plain))
    return 'a pattern is counted from the folder that it belongs to, so it cannot be a whole path';
  const bracket = faultOfBrackets(plain);
  return bracket === null ? null : `this pattern cannot be read: ${bracket}`;
}

/** What is wrong with the brackets of a pattern, in words; null when it can be read. */
export function faultOfBrackets(pattern: string): string | null {
  try {
    picomatch.makeRe(pattern, { strictBrackets: true });
    return null;
  } catch (error) {
    const bracket = /(opening|closing): "(.)"/.exec(String(error));
    if (bracket === null) return String((error as Error).message);
    const [, side, sign] = bracket;
    return side === 'closing'
      ? `a bracket is opened and no ${sign} closes it`
      : `no ${sign} opens what is closed`;
  }
}
