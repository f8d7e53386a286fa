import { defineConfig } from 'vitest/config'

// biome-ignore lint: vitest reads its configuration from a default export.
export default defineConfig({
  test: { include: ['test/**/*.test.ts'], testTimeout: 60_000 },
})
