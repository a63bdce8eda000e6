/**
 * Sixteen hexadecimal digits that stand for some texts: two FNV-1a hashes with 32 bits, one of them from the end
 * (Fowler, Noll and Vo). It protects nothing; it only notices a change.
 */
export function textDigest(...texts: readonly string[]): string {
  let [forward, backward] = [0x811c9dc5, 0x811c9dc5];
  for (const text of texts) {
    for (let at = 0; at < text.length; at++) {
      forward = Math.imul(forward ^ text.charCodeAt(at), 0x01000193);
      backward = Math.imul(backward ^ text.charCodeAt(text.length - 1 - at), 0x01000193);
    }
    forward = Math.imul(forward ^ text.length, 0x01000193);
  }
  return [forward, backward].map(hash => (hash >>> 0).toString(16).padStart(8, '0')).join('');
}
