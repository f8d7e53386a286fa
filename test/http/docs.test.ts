import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { apiPage } from '../../scripts/api-docs.ts'
import { openApi } from '../../src/http/index.ts'

const page = readFileSync(new URL('../../docs/api.md', import.meta.url), 'utf8')

test('docs/api.md is what scripts/api-docs.ts writes', () => {
  expect(page).toBe(apiPage())
})

test('every route has a heading', () => {
  const routes = Object.entries(openApi().paths).flatMap(([path, methods]) =>
    Object.keys(methods).map((method) => `### ${method.toUpperCase()} ${path}`),
  )
  expect(routes.length).toBeGreaterThan(25)
  expect(routes.filter((heading) => !page.includes(`${heading}\n`))).toEqual([])
})
