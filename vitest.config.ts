import { defineConfig } from 'vitest/config'
import { BaseSequencer, type TestSpecification } from 'vitest/node'

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

const isLongest = ({ moduleId }: TestSpecification): boolean =>
  moduleId.endsWith('every-sheet.test.ts')

/** Begins with what takes longest: at the end one worker would wait for the other. */
class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    // oxlint-disable-next-line unicorn/no-array-sort -- this one is no array's
    const sorted = await super.sort(files)
    return [...sorted.filter(isLongest), ...sorted.filter((one) => !isLongest(one))]
  }
}

// vitest takes its configuration from a default export.
// Two workers, because a third makes every test wait longer than it saves.
// oxlint-disable-next-line import/no-default-export
export default defineConfig({
  test: {
    testTimeout: 60_000,
    expect: { poll: { timeout: 15_000 } },
    maxWorkers: 2,
    sequence: { sequencer: LongestFirst },
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
