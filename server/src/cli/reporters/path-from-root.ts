import { posix, sep } from 'node:path';

/** A host that shows findings at lines of files counts their paths from the root of a checkout; whole paths, with `/`. */
export interface Checkout {
  readonly root: string;
  /** Where the command runs. */
  readonly here: string;
}

/** The checkout of a build, whose host tells the root by a variable; null where there is none. */
export function checkoutOf(environment: NodeJS.ProcessEnv, here: string): Checkout | null {
  const root = environment.GITHUB_WORKSPACE;
  if (root === undefined || root === '') return null;
  const slashed = (path: string) => (sep === '\\' ? path.replaceAll('\\', '/') : path);
  return { root: slashed(root), here: slashed(here) };
}

/**
 * A note's path as a host counts it, from the root of the checkout; without steps that lead nowhere. What lies outside of
 * it has its whole path, or, where there is no checkout or the command runs outside of it, the one that was typed.
 */
export function pathFromRoot(path: string, checkout: Checkout | null): string {
  const plain = posix.normalize(path);
  if (checkout === null) return plain;
  const { root, here } = checkout;
  const whole = isWhole(plain) ? plain : posix.join(here, plain);
  return within(root, whole) ?? (within(root, posix.join(here, 'note')) === null ? plain : whole);
}

function isWhole(path: string): boolean {
  return path.startsWith('/') || /^[A-Za-z]:\//.test(path);
}

/** What leads from a folder to what lies in it; null for anything else. */
function within(folder: string, path: string): string | null {
  const start = posix.join(folder, '/');
  return path.startsWith(start) ? path.slice(start.length) : null;
}
