import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync, truncateSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, test } from 'vitest'
import { type BigPrintTruth, bigPrint } from '../../demo/big-print.ts'

const bytes = 200_000
const folder = mkdtempSync(join(tmpdir(), 'reelreckon-benchmark-test-'))
afterAll(() => rmSync(folder, { recursive: true }))

const benchmark = (...words: readonly string[]): string =>
  execFileSync(
    process.execPath,
    ['benchmarks/run.ts', '--bytes', `${bytes}`, '--rounds', '1', '--folder', folder, ...words],
    { encoding: 'utf8' },
  )

const truth = (): BigPrintTruth => {
  const chunks = bigPrint(bytes)
  let next = chunks.next()
  while (next.done !== true) next = chunks.next()
  return next.value
}

/** As far as the test looks into it. */
interface Printed {
  readonly speeds: readonly { readonly name: string; readonly output: string }[]
  readonly memory: readonly { readonly bytes: number; readonly peakMemory_kB: number }[]
}

describe('every contestant, on a small print', () => {
  const { speeds, memory }: Printed = JSON.parse(benchmark('--json'))
  const outputOf = (name: string): string =>
    speeds.find((speed) => speed.name === name)?.output ?? ''
  const { peak_mm, net_mm, layers } = truth()

  test.each(['reelreckon', 'readline', 'gcode-parser'])('%s draws the truth', (name) => {
    const read = JSON.parse(outputOf(name))
    expect(read.peak_mm).toBeCloseTo(peak_mm, 6)
    expect(read.net_mm).toBeCloseTo(net_mm, 6)
  })
  test('lines are counted alike', () => {
    const lines = Number.parseInt(outputOf('wc -l'), 10)
    expect(lines).toBeGreaterThan(6000)
    for (const name of ['reelreckon', 'readline', 'gcode-parser']) {
      expect(JSON.parse(outputOf(name)).lines).toBe(lines)
    }
  })
  test('this reader brings the whole draw curve', () => {
    const read = JSON.parse(outputOf('reelreckon'))
    expect(read.layers).toBe(layers)
    expect(read.curveEnd_mm).toBeCloseTo(peak_mm, 6)
    expect(read.curveRows).toBeGreaterThan(300)
  })
  test('memory is that of a process that runs Node', () => {
    for (const { peakMemory_kB } of memory) expect(peakMemory_kB).toBeGreaterThan(20_000)
  })
})

test('a print that is no longer whole is written again', () => {
  truncateSync(join(folder, `big-print-${bytes}.gcode`), 100_000)
  expect(benchmark()).toMatch(/^\| reelreckon +\|/m)
})

test('the page names no folder', () => {
  const page = benchmark()
  expect(page).not.toContain(folder)
  expect(page).toMatch(/Measured \d+\.\d\d: /)
})
