/** Whether to colour: NO_COLOR forbids it, then FORCE_COLOR decides, then whether a terminal listens. */
export function wantsColour(environment: NodeJS.ProcessEnv, terminal: boolean): boolean {
  const { NO_COLOR, FORCE_COLOR, TERM } = environment;
  if (NO_COLOR !== undefined && NO_COLOR !== '') return false;
  if (FORCE_COLOR !== undefined && FORCE_COLOR !== '') return FORCE_COLOR !== '0' && FORCE_COLOR !== 'false';
  return terminal && TERM !== 'dumb';
}
