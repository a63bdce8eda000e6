import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/**
 * What the accessibility checker objects to in a frame.
 *
 * @param {import('playwright-core').Frame | import('playwright-core').Page} frame
 * @param {string | null} within a selector of what is looked at; the whole page where it is null
 * @returns {Promise<readonly string[]>} a sentence for each objection; never empty where the checker looked at nothing
 */
export async function accessibilityFaults(frame, within) {
  if (!(await frame.evaluate(() => 'axe' in window))) await frame.evaluate(AXE);
  const { violations, passes } = await frame.evaluate(
    async selector =>
      await window.axe.run(selector === null ? document : { include: [[selector]] }, {
        resultTypes: ['violations'],
      }),
    within,
  );
  const seen = passes.length + violations.length;
  if (seen === 0) return ['the accessibility checker found nothing to look at'];
  return violations.flatMap(({ id, help, nodes }) =>
    nodes.map(({ html }) => `${id}: ${help} in ${html.slice(0, 160)}`),
  );
}
