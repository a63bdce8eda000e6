/** A note to check, or the sentence that says why an argument gives none. */
export type Found =
  | { readonly kind: 'note'; readonly path: string }
  | { readonly kind: 'trouble'; readonly message: string };

export function note(path: string): Found {
  return { kind: 'note', path };
}

export function trouble(message: string): Found {
  return { kind: 'trouble', message };
}
