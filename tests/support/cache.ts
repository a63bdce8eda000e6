import { readdirSync } from 'node:fs';
import { join } from 'node:path';

/** The files in which a cache keeps answers, by their whole paths. */
export function entriesOf(cache: string): readonly string[] {
  return readdirSync(cache)
    .filter(name => /^[0-9a-f]{2}$/.test(name))
    .sort()
    .flatMap(shelf => readdirSync(join(cache, shelf)).map(name => join(cache, shelf, name)))
    .filter(path => /\/[0-9a-f]{62}$/.test(path));
}
