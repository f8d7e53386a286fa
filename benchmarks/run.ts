// Speed and memory of the reader beside others: npm run benchmark -- [--write]
import { readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { larger } from './contestants.ts'
import { measureInBrowser } from './in-browser.ts'
import { describeMachine } from './machine.ts'
import { measureManyFiles } from './many-files.ts'
import { measureMemory, measureSpeeds, measureStartUp } from './measure.ts'
import { type Results, report } from './report.ts'
import { withOthersOf } from './results-page.ts'

const usage = `usage: npm run benchmark -- [options]
  --bytes N     size of the print, default 200000000
  --rounds N    default 7
  --gigabyte    speeds at 1 GB, memory and time at 1 GB and 4 GB, Chromium, many files too
  --folder DIR  where the generated prints are kept, default in the temporary folder
  --json        print figures and outputs as JSON
  --write       write benchmarks/RESULTS.md`

const { values } = parseArgs({
  options: {
    bytes: { type: 'string', default: '200000000' },
    rounds: { type: 'string', default: '7' },
    gigabyte: { type: 'boolean', default: false },
    folder: { type: 'string', default: join(tmpdir(), 'reelreckon-benchmark') },
    json: { type: 'boolean', default: false },
    write: { type: 'boolean', default: false },
  },
})
const bytes = Number(values.bytes)
const rounds = Number(values.rounds)
if (!Number.isInteger(bytes) || bytes < 1000 || !Number.isInteger(rounds) || rounds < 1) {
  console.error(usage)
  process.exitCode = 2
} else {
  const sizes = [1e6, 20e6, 200e6].filter((size) => size < bytes)
  const results: Results = {
    machine: describeMachine(),
    rounds,
    bytes,
    speeds: await measureSpeeds(values.folder, bytes, rounds),
    ...(values.gigabyte && {
      larger: { bytes: 1e9, speeds: await measureSpeeds(values.folder, 1e9, rounds, larger) },
      inBrowser: await measureInBrowser(values.folder, bytes, rounds),
      manyFiles: measureManyFiles(values.folder, 20, 20e6, rounds),
    }),
    memory: measureMemory(values.folder, [...sizes, bytes, ...(values.gigabyte ? [1e9, 4e9] : [])]),
    startUp: measureStartUp(3 * rounds),
  }
  const page = report(results)
  console.log(values.json ? JSON.stringify(results, null, 2) : page)
  if (values.write) {
    const path = 'benchmarks/RESULTS.md'
    // What another program measured stays.
    writeFileSync(path, withOthersOf(page, readFileSync(path, 'utf8')))
  }
}
