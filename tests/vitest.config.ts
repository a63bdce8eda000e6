import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/editor/**', '**/node_modules/**'],
    testTimeout: 240_000,
  },
});
