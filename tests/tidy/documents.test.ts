import { describe, expect, it } from 'vitest';
import { projectFiles, projectText } from '../support/project-files.ts';

describe('DEVELOPERS.md', () => {
  const manifests = projectFiles().filter(path => /(?:^|\/)package\.json$/.test(path));
  const dependencies = manifests.flatMap(path => {
    const manifest = JSON.parse(projectText(path)) as Record<string, Record<string, string> | undefined>;
    return [...Object.keys(manifest.dependencies ?? {}), ...Object.keys(manifest.devDependencies ?? {})];
  });

  it('has a line for every dependency', () => {
    const lines = projectText('DEVELOPERS.md').split('\n');
    const missing = [...new Set(dependencies)].filter(
      name => !lines.some(line => line.includes(`\`${name}\``)),
    );
    expect(dependencies.length).toBeGreaterThan(5);
    expect(missing).toEqual([]);
  });
});

describe('README.md', () => {
  const lines = projectText('README.md').split('\n');

  it('opens with the job in one paragraph', () => {
    const [title = '', paragraph = ''] = lines.join('\n').split(/\n\s*\n/);
    expect(title).toMatch(/^# leastwise$/);
    expect(paragraph).toMatch(/^[A-Za-z`*]/);
    expect(paragraph).not.toMatch(/^[*-] |^```/m);
    expect(paragraph.split(/\s+/).length).toBeLessThanOrEqual(100);
  });

  it('shows a use within thirty lines', () => {
    const opening = lines.slice(0, 30).join('\n');
    expect(opening).toMatch(/^```/m);
    expect(opening).toMatch(/^(?:\$ )?(?:npx )?leastwise check |^```measurement/m);
  });

  it('points only to files that are there', () => {
    const files = projectFiles();
    const targets = [...projectText('README.md').matchAll(/\]\((?!https?:)([^)#\s]+)\)/g)].map(
      ([, target = '']) => target,
    );
    const missing = targets.filter(
      target => !files.some(file => file === target || file.startsWith(`${target.replace(/\/$/, '')}/`)),
    );
    expect(missing).toEqual([]);
  });
});
