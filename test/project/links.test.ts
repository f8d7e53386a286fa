import { existsSync, readFileSync } from 'node:fs'
import { dirname, join, normalize } from 'node:path'
import { expect, it, test } from 'vitest'
import { projectFiles } from './project-files.ts'

const withoutCode = (text: string): string =>
  text.replaceAll(/^(```|~~~)[\s\S]*?^\1\s*$/gm, '').replaceAll(/`[^`\n]*`/g, 'code')

/** Anchors of the headings, as code hosts make them. */
const anchorsOf = (text: string): ReadonlySet<string> => {
  const anchors = new Set<string>()
  const outside = text.replaceAll(/^(```|~~~)[\s\S]*?^\1\s*$/gm, '')
  for (const [, heading = ''] of outside.matchAll(/^#{1,6}\s+(.+?)\s*#*$/gm)) {
    const words = heading.replaceAll(/\[([^\]]*)\]\([^)]*\)/g, '$1').toLowerCase()
    const anchor = words.replaceAll(/[^\p{L}\p{N}\s_-]/gu, '').replaceAll(/\s/g, '-')
    let unique = anchor
    for (let count = 1; anchors.has(unique); count += 1) unique = `${anchor}-${count}`
    anchors.add(unique)
  }
  return anchors
}

const linkIn = /\]\(\s*<?([^)\s>]+)>?(?:\s+["'][^)]*)?\)|^\[[^\]]+\]:\s*(\S+)/gm

/** Links of a Markdown text that lead nowhere inside the project. */
const brokenLinks = (path: string, text: string): string[] =>
  [...withoutCode(text).matchAll(linkIn)]
    .map(([, inline, reference]) => inline ?? reference ?? '')
    .filter((link) => !/^[a-z][a-z0-9+.-]*:/i.test(link))
    .filter((link) => {
      const [file = '', anchor] = decodeURI(link).split('#', 2)
      const target = file === '' ? path : normalize(join(dirname(path), file))
      if (target.startsWith('..') || !existsSync(target)) return true
      if (anchor === undefined) return false
      const there = file === '' ? text : readFileSync(target, 'utf8')
      return !anchorsOf(there).has(anchor)
    })

const pages = projectFiles().filter((path) => path.endsWith('.md'))

test('there are pages to look at', () => {
  expect(pages.length).toBeGreaterThan(3)
})

test.each(pages)('links in %s lead somewhere', (path) => {
  expect(brokenLinks(path, readFileSync(path, 'utf8'))).toEqual([])
})

const home = 'docs/method/draw.md'
it.each([
  ['a file that is not there', '[a](no-such-page.md)', 1],
  ['a file outside the project', '[a](../../../elsewhere.md)', 1],
  ['a heading that is not there', '# One\n[a](#two)', 1],
  ['a heading that is not there in another page', '[a](verdict.md#no-such-heading)', 1],
  ['a reference that leads nowhere', '[a]: no-such-page.md', 1],
  ['a heading that is there', '# One *and* two\n[a](#one-and-two)', 0],
  ['a file that is there', '[a](verdict.md) [b](../method/verdict.md "title")', 0],
  ['the web', '[a](https://example.org/x) [b](mailto:a@example.org)', 0],
  ['a link in code', '`[a](x.md)`\n\n```\n[a](x.md)\n```\n', 0],
])('%s', (_, text, broken) => {
  expect(brokenLinks(home, text)).toHaveLength(broken)
})
