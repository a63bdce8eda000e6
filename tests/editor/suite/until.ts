const WITHIN = 30_000;
const PAUSE = 50;

/**
 * What `ask` answers, asked again until it fits; fails with the last answer where it never does.
 *
 * An editor shows findings and actions some time after a change and says nothing when it is ready.
 */
export async function until<Answer>(
  what: string,
  ask: () => Answer | PromiseLike<Answer>,
  fits: (answer: Answer) => boolean,
): Promise<Answer> {
  const end = Date.now() + WITHIN;
  for (;;) {
    const answer = await ask();
    if (fits(answer)) return answer;
    if (Date.now() > end) throw new Error(`${what}: still ${shown(answer)}`);
    await new Promise(resolve => setTimeout(resolve, PAUSE));
  }
}

function shown(answer: unknown): string {
  return JSON.stringify(answer, null, 1) ?? String(answer);
}
