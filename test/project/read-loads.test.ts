import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'

const bundle = 'dist/bundle'
const imported = /^(?:import|export)\b[^;]*?["']([^"']+)["'];/gm
/** What the notice of a package that is joined in begins with. */
const joinedIn = /^\/\*! (\S+): /gm

/** All that a file of the bundle loads before it runs, itself too; packages by their names, joined in or not. */
const loadedBy = (name: string, found = new Set<string>()): ReadonlySet<string> => {
  if (found.has(name)) return found
  found.add(name)
  const code = readFileSync(join(bundle, name), 'utf8')
  for (const [, inside = ''] of code.matchAll(joinedIn)) found.add(inside)
  for (const [, to = ''] of code.matchAll(imported)) {
    if (to.startsWith('./')) loadedBy(to.slice(2), found)
    else found.add(to)
  }
  return found
}

const packagesOf = (part: string): readonly string[] => {
  const name = readdirSync(bundle).find((file) => file.startsWith(part)) ?? ''
  return [...loadedBy(name)].filter((each) => !each.endsWith('.js') && !each.startsWith('node:'))
}

test('reading a print loads no package but what unpacks: that takes longer than a small print', () => {
  expect(packagesOf('part-read-command-')).toEqual(['fflate'])
})

test('nor does judging it by a reel that is told', () => {
  expect(packagesOf('part-check-command-')).toEqual(['fflate'])
})

test('what must load one is seen to', () => {
  expect(packagesOf('contract.js')).toEqual(['zod'])
})
