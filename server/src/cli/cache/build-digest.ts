declare const BUILD_DIGEST: string | undefined;

/**
 * Which build of the command this is: a digest of its own code, put in by `server/build.mjs`. What one build keeps no
 * other reads, though both may call themselves by the same version. Null where it runs from its sources, which may
 * change under it.
 */
export function buildDigest(): string | null {
  return typeof BUILD_DIGEST === 'undefined' ? null : BUILD_DIGEST;
}
