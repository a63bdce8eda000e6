import { relative, sep } from 'node:path';

/**
 * What leads from the root of a checkout to where the command runs, as it stands before a path: empty, or `bank/notes/`.
 * A host that shows findings at lines of files counts their paths from there, and tells the root by a variable.
 */
export function checkoutFolder(environment: NodeJS.ProcessEnv, here: string): string {
  const root = environment.GITHUB_WORKSPACE;
  if (root === undefined || root === '') return '';
  const parts = relative(root, here).split(sep);
  // Outside of the checkout, or on another drive, nothing leads there.
  if (parts[0] === '..' || parts[0]?.endsWith(':') === true || parts[0] === '') return '';
  return `${parts.join('/')}/`;
}
