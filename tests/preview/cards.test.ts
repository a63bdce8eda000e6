import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Token } from '../../client/src/preview/preview-plugin.ts';
import { checkNote } from '../../server/src/checks/check.ts';
import { DEFAULT_SETTINGS, type Settings } from '../../server/src/checks/settings.ts';
import { PROJECT_ROOT, projectText } from '../support/project-files.ts';
import { cardsIn, preview, shown } from './markdown-it.ts';

const SLEEVE = `# Bench

\`\`\`measurement sleeve
instrument: vernier calipers
main scale: 1 mm = 1 MSD
vernier scale: 50 VSD = 49 MSD
closed: vernier zero right, division 3
main scale reading: 24 mm
coinciding division: 17
observed reading = 24.36 mm
\`\`\`

The end.
`;
const TEXT: Token = { type: 'text', info: '', map: null, meta: null };
const STUDENT: Settings = { ...DEFAULT_SETTINGS, student: true };

describe('a card in the preview', () => {
  it('stands under its block, with what was recorded, what follows, the findings and the figure', () => {
    const html = preview().render(SLEEVE);
    const [card = ''] = cardsIn(html);
    expect(html.indexOf('<div class="leastwise-card"')).toBeGreaterThan(html.indexOf('</code></pre>'));
    expect(html.indexOf('The end.')).toBeGreaterThan(html.indexOf(card));
    expect(card).toContain('<caption>sleeve: vernier calipers</caption>');
    expect(card).toContain('<th scope="row">main scale reading</th><td>24 mm</td>');
    // 24 mm + 17 × 0.02 mm, by hand.
    expect(card).toContain('<th scope="row">observed reading</th><td>24.34 mm</td>');
    expect(card).toContain('<th scope="row">corrected reading</th><td>24.28 mm</td>');
    expect(card).toMatch(/<li class="leastwise-error"><strong>Error:<\/strong> [^<]*24\.36 mm/);
    expect(card).toMatch(/<svg [^>]*width="\d[^>]*height="\d/);
    expect(card).not.toMatch(/<script|\son\w+=/i);
  });

  it('keeps the last good figure while a line is broken, and takes none from another note', () => {
    const markdown = preview();
    const figure = /<svg[\s\S]*<\/svg>/.exec(shown(markdown, SLEEVE))?.[0] ?? 'none';
    const broken = SLEEVE.replace('coinciding division: 17', 'coinciding division: 1 7 x');
    const html = shown(markdown, broken);
    expect([html.includes(figure), html.includes('leastwise-earlier')]).toEqual([true, true]);
    const mended = shown(markdown, SLEEVE);
    expect([mended.includes(figure), mended.includes('leastwise-earlier')]).toEqual([true, false]);
    expect(markdown.render(broken, { currentDocument: 'file:///other.md' }).includes('<svg')).toBe(false);
    expect(markdown.render(broken).includes('<svg')).toBe(false);
  });

  it('is the same again after an edit elsewhere, and after one that is undone', () => {
    const markdown = preview();
    const [before] = cardsIn(shown(markdown, SLEEVE));
    expect(cardsIn(shown(markdown, `Words.\n\n${SLEEVE}`))).toEqual([before]);
    expect(cardsIn(shown(markdown, SLEEVE.replace('17', '18')))).not.toEqual([before]);
    expect(cardsIn(shown(markdown, SLEEVE))).toEqual([before]);
  });

  it('gives a student nothing, not even what was shown to a tutor before', () => {
    let settings: Settings | null = DEFAULT_SETTINGS;
    const markdown = preview(() => settings);
    expect(shown(markdown, SLEEVE)).toContain('24.34');
    for (settings of [STUDENT, null]) {
      const html = shown(markdown, SLEEVE);
      expect(html).toContain('<svg');
      expect(html).toContain('main scale reading');
      // Where a line is drawn may have the same figures by chance; the figures' own tests read the lines.
      const said = html.replace(/ (?:d|x|y|x1|y1|width|height|viewBox)="[^"]*"/g, '');
      expect(said).not.toMatch(/24\.34|24\.28|0\.02 mm|\+0\.06/);
    }
  });

  it('escapes whatever a note may call things', () => {
    const hostile = SLEEVE.replace('measurement sleeve', 'measurement <img src=x onerror=alert(1)>')
      .replace('vernier calipers', '"><script>alert(1)</script>\u202e')
      .replace('closed:', '<b onclick="alert(1)">a</b>: 3 mm\nclosed:');
    const card = cardsIn(preview().render(hostile)).join('');
    expect(card).not.toMatch(/<script|<img|<b[ >]|\u202e/);
    expect(card).not.toMatch(/<[^>]*\son\w+=/);
  });

  it('gives two figures that are the same ids of their own', () => {
    const html = shown(preview(), SLEEVE + SLEEVE);
    const ids = [...html.matchAll(/ id="([^"]*)"/g)].map(([, id]) => id);
    const named = [...html.matchAll(/ aria-labelledby="([^"]*)"/g)].flatMap(([, all]) => all!.split(' '));
    expect(ids.length).toBe(4);
    expect(new Set(ids).size).toBe(4);
    expect(named).toEqual(ids);
  });

  it('sets values with the math of the preview, where it has some', () => {
    const markdown = preview();
    markdown.renderer.rules.math_inline = () => '';
    markdown.parseInline = text => [{ children: [{ ...TEXT, info: text }] }];
    markdown.renderer.renderInline = ([token]) => `<math>${token?.info}</math>`;
    expect(cardsIn(shown(markdown, SLEEVE)).join('')).toContain('<td><math>$24.34\\,\\text{mm}$</math></td>');
  });

  it('stands in lists and quotes, too', () => {
    const listed = SLEEVE.replace(/^/gm, '> ').replace(/^> The end.$/m, 'The end.');
    expect(cardsIn(preview().render(listed))).toEqual(cardsIn(preview().render(SLEEVE)));
  });
});

describe('the preview of the examples', () => {
  const names = readdirSync(`${PROJECT_ROOT}/examples`).filter(name => name.endsWith('.md'));
  it.each(names)('%s has a card for each block', name => {
    const text = projectText(`examples/${name}`);
    const cards = cardsIn(preview().render(text));
    expect(cards.length).toBe(checkNote(text).blocks.length);
    expect(cards.length).toBeGreaterThan(0);
    for (const card of cards) expect(card).not.toMatch(/undefined|\[object|NaN/);
  });
});
