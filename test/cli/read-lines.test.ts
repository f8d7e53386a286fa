import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { gzipSync } from 'node:zlib'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { readLines } from '../../src/cli/read-lines.ts'

let folder = ''
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'read-lines-'))
})
afterAll(async () => rm(folder, { recursive: true }))

const linesOf = async (
  contents: string | Uint8Array,
  longest?: number,
): Promise<readonly string[]> => {
  const file = join(folder, 'lines')
  await writeFile(file, contents)
  const lines: string[] = []
  for await (const batch of readLines(file, new AbortController().signal, longest)) {
    lines.push(...batch)
  }
  return lines
}

test('lines come whole across the pieces of a file', async () => {
  const long = 'µ'.repeat(200_000)
  expect(await linesOf(`a\n\n${long}\nb\n${long}`)).toEqual(['a', '', long, 'b', long])
  expect(await linesOf('a\n')).toEqual(['a'])
  expect(await linesOf('')).toEqual([])
})

test('lines come out of gzip, and a damaged one is refused', async () => {
  const long = 'µ'.repeat(200_000)
  const packed = gzipSync(`a\n${long}\nb`)
  expect(await linesOf(packed)).toEqual(['a', long, 'b'])
  await expect(linesOf(packed.subarray(0, -9))).rejects.toMatchObject({
    exit: 3,
    error: { code: 'gzip_damaged' },
  })
})

test('a line that is too long is refused with its number', async () => {
  expect(await linesOf(`a\n${'b'.repeat(200_000)}`, 200_000)).toHaveLength(2)
  await expect(linesOf(`a\n${'b'.repeat(300_000)}\nc`, 200_000)).rejects.toMatchObject({
    exit: 3,
    error: { code: 'line_too_long', line: 2 },
  })
})

test.each([
  ['a letter of another code', Buffer.from('grün\n', 'latin1')],
  ['an end within a letter', Buffer.from('grü').subarray(0, -1)],
])('a file that is not UTF-8 is refused: %s', async (_, bytes) => {
  await expect(linesOf(bytes)).rejects.toMatchObject({
    error: { code: 'not_utf8', message: expect.stringContaining('Save it as UTF-8') },
  })
})

test('a backup is told from lines, and what takes it is named', async () => {
  await expect(linesOf(Buffer.from('SQLite format 3\0\x10\0'))).rejects.toMatchObject({
    exit: 3,
    error: { code: 'backup_not_lines', message: expect.stringContaining('reelreckon restore') },
  })
})
