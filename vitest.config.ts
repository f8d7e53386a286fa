import { defineConfig } from 'vitest/config'

/** Tests that put something in the place of a module or a global: each has a world of its own. */
const apart = [
  'test/app/api-offline.test.ts',
  'test/app/follow-changes.test.ts',
  'test/app/print-asked.test.ts',
  'test/app/running-prints.test.ts',
  'test/print/fuzz-readers.test.ts',
  'test/print/without-kernel.test.ts',
  'test/store/new-folder.test.ts',
]

// vitest takes its configuration from a default export.
// Two workers, because most of the time a test waits for a browser, a server or a command.
// oxlint-disable-next-line import/no-default-export
export default defineConfig({
  test: {
    testTimeout: 60_000,
    maxWorkers: 2,
    projects: [
      // To load the modules takes longer than most tests: those of a worker share them.
      {
        extends: true,
        test: { name: 'together', include: ['test/**/*.test.ts'], exclude: apart, isolate: false },
      },
      { extends: true, test: { name: 'apart', include: apart } },
    ],
  },
})
