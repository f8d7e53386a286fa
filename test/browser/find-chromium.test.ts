import { spawnSync } from 'node:child_process'
import { chmodSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { delimiter, join } from 'node:path'
import { afterAll, expect, test } from 'vitest'
import { findChromium } from '../../scripts/find-chromium.ts'

const folder = mkdtempSync(join(tmpdir(), 'reelreckon-chromium-'))
afterAll(() => rmSync(folder, { recursive: true }))

const program = (place: string, name: string, mode = 0o755): string => {
  const path = join(folder, place, name)
  mkdirSync(join(folder, place), { recursive: true })
  writeFileSync(path, '')
  chmodSync(path, mode)
  return path
}

const onPath = program('path', 'chromium-browser')
const elsewhere = program('usual', 'google-chrome')
program('text', 'chromium', 0o644)
mkdirSync(join(folder, 'folder', 'chromium'), { recursive: true })
const places = (...names: readonly string[]): string[] => names.map((name) => join(folder, name))

test('the PATH comes before the usual places', () => {
  const PATH = places('none', 'path').join(delimiter)
  expect(findChromium({ PATH }, places('usual'))).toBe(onPath)
  expect(findChromium({}, places('usual'))).toBe(elsewhere)
})

test('the variable CHROMIUM comes before both, and nothing takes its place', () => {
  const PATH = places('path').join(delimiter)
  expect(findChromium({ PATH, CHROMIUM: elsewhere }, [])).toBe(elsewhere)
  expect(findChromium({ PATH, CHROMIUM: join(folder, 'no-such-file') }, [])).toBeNull()
})

test('a folder or a text of that name is no program', () => {
  expect(findChromium({ PATH: places('folder').join(delimiter) }, places('text'))).toBeNull()
})

test('where there is none, it fails with a sentence that says what to do', () => {
  const { status, stderr } = spawnSync(process.execPath, ['scripts/find-chromium.ts'], {
    encoding: 'utf8',
    env: { ...process.env, CHROMIUM: join(folder, 'no-such-file') },
  })
  expect(status).toBe(1)
  expect(stderr).toContain('Install Chromium, or set the variable CHROMIUM to the program.')
})
