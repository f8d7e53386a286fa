import { readFileSync } from 'node:fs'
import { homedir } from 'node:os'
import { describe, expect, it, test } from 'vitest'
import { projectFiles } from './project-files.ts'

// Put together from parts, so that this file does not hold what it looks for.
const homes = ['home', 'Users', 'root', 'work', 'mnt', 'private', 'workspace', 'builds']
const unix = new RegExp(`(?:file://|(?<![\\w.~*/)-]))/(?:${homes.join('|')})/[\\w.-]+`)
const windows = /\b[A-Z]:\\(?:Users|Documents)\b/
const here = [process.cwd(), homedir()].filter((path) => path.split(/[\\/]/).length > 2)

/** A path of somebody's machine in the text, or null. */
const machinePath = (text: string, folders: readonly string[] = here): string | null =>
  unix.exec(text)?.[0] ??
  windows.exec(text)?.[0] ??
  folders.find((folder) => text.includes(folder)) ??
  null

const hosts = (lock: string): string[] =>
  [...lock.matchAll(/"resolved": "([^"]+)"/g)].map(([, address = '']) => new URL(address).host)

test('no file names a path of a machine', () => {
  const paths = projectFiles()
  expect(paths.length).toBeGreaterThan(100)
  const found = paths.map((path) => [path, machinePath(readFileSync(path, 'latin1'))] as const)
  expect(found.filter(([, path]) => path !== null)).toEqual([])
})

test('the lock file names no registry but the public one', () => {
  const named = new Set(hosts(readFileSync('package-lock.json', 'utf8')))
  expect([...named].filter((host) => host !== 'registry.npmjs.org')).toEqual([])
})

describe('the guard can fail', () => {
  it.each([
    ['', 'home', 'marit', 'prints'],
    ['see ', 'Users', 'marit', 'a.gcode'],
    ["'", 'root', '.npm', ''],
    ['file://', 'work', 'reels', 'x'],
  ])('%s/%s/%s/%s', (before, ...parts) => {
    expect(machinePath(`${before}/${parts.join('/')}`)).not.toBeNull()
  })
  it('on another system', () => {
    expect(machinePath(['C:', 'Users', 'marit'].join('\\'))).not.toBeNull()
  })
  it('in this folder', () => {
    expect(machinePath('in /srv/reels/a.ts', ['/srv/reels'])).not.toBeNull()
  })
  it('but not on what only looks alike', () => {
    expect(machinePath('docs/home/page.md, /usr/bin/chromium, 10/home/day')).toBeNull()
  })
  it('on a registry of one machine', () => {
    expect(hosts('"resolved": "http://localhost:4873/x.tgz"')).toEqual(['localhost:4873'])
  })
})
