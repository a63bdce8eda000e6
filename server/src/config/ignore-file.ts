import ignore from 'ignore';

/**
 * Says which notes an ignore file leaves out, by their paths relative to its folder (with `/`). Its lines are patterns in
 * the manner of version control: `#` begins a comment, `!` takes a note back in, a slash at the end means a folder.
 *
 * A line that is no pattern leaves nothing out.
 */
export function ignoreFile(text: string): (path: string) => boolean {
  const patterns = text.replace(/^\ufeff/, '');
  let matcher = ignore(AS_WRITTEN).add(patterns);
  let asked = 0;
  return path => {
    if (!ignore.isPathValid(path)) return false;
    // The library remembers every path that it was asked about, and a bank has no end of them.
    if (++asked % MOST_REMEMBERED === 0) matcher = ignore(AS_WRITTEN).add(patterns);
    return matcher.ignores(path);
  };
}

const MOST_REMEMBERED = 10_000;
/** Capital letters are others than small ones, on every system. */
const AS_WRITTEN = { ignorecase: false };
