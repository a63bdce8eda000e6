import { createHash } from 'node:crypto';
import type { CheckedNote } from '../../checks/finding.ts';

const FORM = 'leastwise cache 1';
const DIGEST_LENGTH = 64;
const HEAD_LENGTH = FORM.length + 1 + 2 * (DIGEST_LENGTH + 1);

/** What a check gave, as the bytes of a file: the form, the key, a digest of all that follows and of the key, the facts. */
export function cacheEntry(key: string, note: CheckedNote): Buffer {
  const facts = Buffer.from(JSON.stringify(note));
  return Buffer.concat([Buffer.from(`${FORM}\n${key}\n${digestOf(key, facts)}\n`), facts]);
}

/** What such a file holds; null for one that is not whole, was changed, or belongs to another key. */
export function readCacheEntry(key: string, bytes: Uint8Array): CheckedNote | null {
  const file = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const facts = file.subarray(HEAD_LENGTH);
  const head = file.toString('latin1', 0, HEAD_LENGTH);
  if (head !== `${FORM}\n${key}\n${digestOf(key, facts)}\n`) return null;
  return JSON.parse(facts.toString('utf8')) as CheckedNote;
}

function digestOf(key: string, facts: Buffer): string {
  return createHash('sha256').update(key).update(facts).digest('hex');
}
