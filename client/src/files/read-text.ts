import { FileType, type Uri, workspace } from 'vscode';

/** More than any note that a person writes, in bytes; what is larger would only hold up the check of the others. */
const MOST_BYTES = 16_000_000;

/** A file as text without its byte-order mark, as the editor's own documents have it; null where it is none, or is gone. */
export async function readText(uri: Uri): Promise<string | null> {
  try {
    const { size, type } = await workspace.fs.stat(uri);
    if (size > MOST_BYTES || (type & FileType.Directory) !== 0) return null;
    const text = new TextDecoder('utf-8', { fatal: true }).decode(await workspace.fs.readFile(uri));
    return text.includes('\0') ? null : text;
  } catch {
    return null;
  }
}
