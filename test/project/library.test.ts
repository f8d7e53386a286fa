import { spawnSync } from 'node:child_process'
import { readFileSync, rmSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { afterAll, expect, test } from 'vitest'

const at = (path: string): string => fileURLToPath(new URL(`../../${path}`, import.meta.url))
const page = readFileSync(at('docs/library.md'), 'utf8')
// Inside the package its own name resolves to dist/bundle, as an installed package would.
const scratch = at('dist/library-snippets.ts')

afterAll(() => rmSync(scratch, { force: true }))

const blocks = (language: string): readonly string[] =>
  [...page.matchAll(new RegExp(`^\`\`\`${language}\n([\\s\\S]*?)^\`\`\``, 'gm'))].map(
    ([, block = '']) => block,
  )

test('every snippet of the page has what it prints below it', () => {
  expect(blocks('ts').length).toBeGreaterThan(1)
  expect(blocks('text')).toHaveLength(blocks('ts').length)
})

test('the snippets run, and print what the page shows', () => {
  // A line between tells their output apart.
  const mark = '— next —'
  writeFileSync(scratch, blocks('ts').join(`\nconsole.log('${mark}')\n`))
  const { stdout, stderr } = spawnSync(process.execPath, [scratch], { encoding: 'utf8' })
  expect(stderr).toBe('')
  expect(stdout.split(`${mark}\n`)).toEqual(blocks('text'))
})
