import { defineConfig } from 'vitest/config'

// vitest takes its configuration from a default export.
// Two workers, because most of the time a test waits for a browser, a server or a command.
// oxlint-disable-next-line import/no-default-export
export default defineConfig({
  test: { include: ['test/**/*.test.ts'], testTimeout: 60_000, maxWorkers: 2 },
})
