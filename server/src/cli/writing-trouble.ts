/** Why a file could not be written, in a sentence without its stop. */
export function writingTrouble(error: unknown, path: string): string {
  const code = errorCode(error);
  switch (code) {
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
      return `${path} may not be written: the permission is missing`;
    case 'ENOSPC':
    case 'EDQUOT':
      return `${path} could not be written: there is no room left`;
    case 'EFBIG':
      return `${path} could not be written: it is larger than a file may be here`;
    case 'ENOENT':
      return `${path} could not be written: it is gone, or its folder is`;
    case 'EISDIR':
      return `${path} could not be written: a folder has that name`;
    case 'ENOTDIR':
    case 'EEXIST':
      return `${path} could not be written: a file stands where a folder is needed`;
    default:
      return `${path} could not be written (${code ?? String(error)})`;
  }
}

/** The short word that the system has for what went wrong; undefined for an error of another kind. */
export function errorCode(error: unknown): string | undefined {
  return (error as NodeJS.ErrnoException | null)?.code;
}
