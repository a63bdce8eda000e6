/** A note's path as a host counts it, from the root of the checkout; `below` leads from there to where the command runs. A whole path stays. */
export function pathFromRoot(path: string, below: string): string {
  return path.startsWith('/') || /^[A-Za-z]:\//.test(path) ? path : below + path;
}
