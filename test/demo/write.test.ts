import { spawnSync } from 'node:child_process'
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { demoPrints } from '../../demo/prints/index.ts'

const program = fileURLToPath(new URL('../../demo/write.ts', import.meta.url))
let folder = ''

const write = (...words: string[]): { status: number | null; out: string; err: string } => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...words], {
    encoding: 'utf8',
  })
  return { status, out: stdout, err: stderr }
}

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'demo-prints-'))
})
afterEach(() => rmSync(folder, { recursive: true }))

test('writes every print, byte for byte, and says so', () => {
  const { status, out } = write(folder)
  expect(status).toBe(0)
  expect(readdirSync(folder).toSorted()).toEqual(
    [...demoPrints.map(({ fileName }) => fileName), 'marrowick.ndjson'].toSorted(),
  )
  for (const { fileName, write: text } of demoPrints) {
    expect(readFileSync(join(folder, fileName), 'latin1')).toBe(text())
    expect(out).toContain(`${fileName}: ${text().length} bytes`)
  }
})

test('writes a big print of the size asked for', () => {
  const { status, out } = write(join(folder, 'new'), '--big', '2.5MB', '--absolute')
  expect(status).toBe(0)
  expect(statSync(join(folder, 'new', 'big-print.gcode')).size).toBe(2_500_000)
  expect(out).toContain('big-print.gcode: 2500000 bytes')
})

test.each([[[]], [['a', 'b']], [['a', '--big', 'much']]])('%j is wrong usage', (words) => {
  const { status, out, err } = write(...words)
  expect([status, out]).toEqual([2, ''])
  expect(err).toContain('usage:')
})
