/** The folder in which an address stands, without a last slash; notes that were never saved stand together. */
export function folderOf(uri: string): string {
  const path = uri.replace(/[?#].*$/, '');
  const end = path.lastIndexOf('/');
  return end === -1 ? path.slice(0, path.indexOf(':') + 1) : path.slice(0, end);
}

/** The path of an address within a folder, with `/` and without escapes; null where it stands elsewhere. */
export function pathWithin(folder: string, uri: string): string | null {
  const base = folder.endsWith('/') ? folder : `${folder}/`;
  if (!uri.startsWith(base)) return null;
  const path = uri.slice(base.length).replace(/[?#].*$/, '');
  try {
    return decodeURIComponent(path);
  } catch {
    return path;
  }
}
