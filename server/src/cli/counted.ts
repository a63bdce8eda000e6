/** How many there are of something, as it is said: `1 note`, `3 fixes`. */
export function counted(count: number, thing: string, things = `${thing}s`): string {
  return `${count} ${count === 1 ? thing : things}`;
}
