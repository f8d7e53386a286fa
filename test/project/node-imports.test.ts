import { readFileSync } from 'node:fs'
import { builtinModules } from 'node:module'
import { expect, it, test } from 'vitest'
import { projectFiles } from './project-files.ts'

const specifier = /(?:\bfrom|\bimport\s*\(?|\brequire\s*\()\s*['"]([^'"]+)['"]/g

/** What a source imports of Node itself. */
const nodeImports = (source: string): string[] =>
  [...source.matchAll(specifier)]
    .map(([, name = '']) => name)
    .filter((name) => name.startsWith('node:') || builtinModules.includes(name))

const sources = projectFiles().filter((path) => /^src\/.*\.tsx?$/.test(path))

test('there are sources to look at', () => {
  expect(sources.length).toBeGreaterThan(50)
})

test('only the command line, the store, the solver and what opens the port import Node', () => {
  const importers = sources.filter((path) => nodeImports(readFileSync(path, 'utf8')).length > 0)
  const mayImport = /^src\/(cli\/|store\/|solver\/|http\/listen\.ts$)/
  expect(importers.filter((path) => !mayImport.test(path))).toEqual([])
})

it.each([
  "import { readFileSync } from 'node:fs'",
  "import 'node:process'",
  "export * from 'fs'",
  "const { hostname } = await import('node:os')",
  'import type { Stats } from "node:fs"',
])('%s would be seen', (line) => {
  expect(nodeImports(line)).toHaveLength(1)
})
it('a word in a sentence is none', () => {
  expect(nodeImports("// taken from node:fs\nimport { a } from './fs.ts'")).toEqual([])
})
