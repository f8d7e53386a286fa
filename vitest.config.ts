import { defineConfig } from 'vitest/config'

// vitest takes its configuration from a default export.
// oxlint-disable-next-line import/no-default-export
export default defineConfig({
  test: { include: ['test/**/*.test.ts'], testTimeout: 60_000 },
})
