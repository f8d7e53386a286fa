import { copyFileSync, mkdtempSync, readdirSync, readFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { parse } from 'csv-parse/sync'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { printsJson, recordedJson } from '../../src/contract/index.ts'
import { type ServedApp, serveApp } from '../app/serve-app.ts'
import { runCli } from '../cli/run-cli.ts'
import { giveFile, launch, openPage } from './in-browser.ts'

// Names that are markup are shown as text, on every sheet there is and in what is taken out.

const markup = (what: string): string => `<img src=x onerror=globalThis.owned=1 alt=${what}>`

let browser: Browser
let server: ServedApp
/** The reels' ids. */
let reels: readonly string[] = []

const post = async (path: string, body: object): Promise<unknown> => {
  const answer = await fetch(`${server.origin}/api${path}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  })
  const text = await answer.text()
  if (!answer.ok) throw new Error(`${path}: ${text}`)
  return JSON.parse(text)
}

beforeAll(async () => {
  browser = await launch()
  server = await serveApp('empty')
  const rows = {
    person: {},
    printer: { start_allowance_mm: { value: 60, u: 30 } },
    scale: { step_g: 1, repeatability_g: 0.5, gain: 0.001 },
    material: { density_g_per_cm3: { value: 1.24, u: 0.02 } },
  }
  for (const [kind, keys] of Object.entries(rows)) {
    // oxlint-disable no-await-in-loop
    await post(`/rows/${kind}`, { name: markup(kind), ...keys })
  }
  const told = recordedJson.parse(
    await post('/reels', {
      make: { name: markup('make'), maker: markup('maker'), material: markup('material') },
      label_net_g: 1000,
      colour: { name: markup('colour') },
      lot: markup('lot'),
      place: markup('place'),
      note: markup('note'),
      count: 2,
    }),
  )
  reels = told.facts.flatMap((fact) => (fact.kind === 'opened' ? [fact.reel] : []))
  for (const [k, reel] of reels.entries()) {
    await post('/weighings', {
      reel,
      accept: true,
      note: markup('weighing'),
      weighing: { reading_g: 1210 - 20 * k },
    })
  }
}, 240_000)
afterAll(async () => {
  await browser?.close()
  await server?.end()
})

/** What markup would have made of a sheet, had it been taken for any. */
const made = (page: Page): Promise<readonly unknown[]> =>
  page.evaluate(() => [
    document.querySelectorAll('img, [onerror], [alt]').length,
    'owned' in globalThis,
  ])

/** Watches a page for requests that a name could have brought about. */
const watch = (page: Page): readonly string[] => {
  const strange: string[] = []
  page.on('request', (request) => {
    const { origin, pathname } = new URL(request.url())
    const isOurs =
      (origin === server.origin || origin === 'null') &&
      !pathname.endsWith('/x') &&
      request.resourceType() !== 'image'
    if (!isOurs && pathname !== '/icon.svg') strange.push(request.url())
  })
  page.on('dialog', (dialog) => {
    strange.push(dialog.message())
    void dialog.dismiss()
  })
  return strange
}

test('an element made of markup would be found', async () => {
  const { page } = await openPage(browser, server.origin)
  const strange = watch(page)
  await page.getByRole('main').waitFor()
  await page.evaluate((name) => {
    document.querySelector('main')?.insertAdjacentHTML('beforeend', name)
  }, markup('maker'))
  await page.waitForTimeout(300)
  const [elements] = await made(page)
  expect(elements).toBe(1)
  expect(strange.length).toBe(1)
  await page.close()
})

test('the answer, its ranks, its drawings and the kept print', async () => {
  const { page, faults } = await openPage(browser, server.origin)
  const strange = watch(page)
  const file = join(mkdtempSync(join(tmpdir(), 'reelreckon-markup-')), `${markup('file')}.gcode`)
  copyFileSync(join(server.prints, 'knob.gcode'), file)
  await giveFile(page, file)
  await page.getByRole('region', { name: 'The answer' }).waitFor()
  expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe(
    `${markup('file')}.gcode`,
  )
  expect(await page.locator('main').textContent()).toContain(markup('colour'))
  expect(await made(page)).toEqual([0, false])
  expect(strange).toEqual([])
  expect(faults).toEqual([])
  await page.close()
  const { prints } = printsJson.parse(await (await fetch(`${server.origin}/api/prints`)).json())
  expect(prints.map((one) => one.file)).toEqual([`${markup('file')}.gcode`])
  await post('/draws', {
    print: prints[0]?.id,
    reels: [{ reel: reels[0] }],
    printer: markup('printer'),
    note: markup('draw'),
  })
})

test('the slate, its plan with what to do at each printer, and a print that runs', async () => {
  const { prints } = printsJson.parse(await (await fetch(`${server.origin}/api/prints`)).json())
  const print = prints[0]!.id
  const told = { name: markup('waiting'), note: markup('on the slate'), copies: 2 }
  await post('/slate', { print, ...told, changes: { most: 1 } })
  const { page, faults } = await openPage(browser, `${server.origin}/slate`)
  const strange = watch(page)
  const main = page.locator('main')
  await page.getByRole('button', { name: 'Match them' }).click()
  await page.getByRole('button', { name: 'Keep this plan' }).waitFor({ timeout: 60_000 })
  const whys = page.getByRole('button', { name: /^Why 1/ })
  if ((await whys.count()) > 0) await whys.first().click()
  const plan = (await main.textContent()) ?? ''
  for (const what of ['waiting', 'on the slate', 'printer', 'colour']) {
    expect(plan).toContain(markup(what))
  }
  expect(await made(page)).toEqual([0, false])
  await page.goto(server.origin)
  const file = join(mkdtempSync(join(tmpdir(), 'reelreckon-markup-')), `${markup('runs')}.gcode`)
  copyFileSync(join(server.prints, 'hinge-pin.gcode'), file)
  await giveFile(page, file)
  await page.getByRole('button', { name: /^Start it on/ }).click()
  const running = page.getByRole('region', { name: 'Running' })
  await running.waitFor()
  expect(await running.textContent()).toContain(markup('runs'))
  await page.reload()
  await page.getByText(markup('runs')).first().waitFor()
  expect(await made(page)).toEqual([0, false])
  expect(strange).toEqual([])
  expect(faults).toEqual([])
  await page.close()
})

test('every sheet that a link leads to', async () => {
  const { page, faults } = await openPage(browser, `${server.origin}/`)
  const strange = watch(page)
  const seen = new Set<string>()
  const waiting = ['/', '/shelf', ...reels.map((id) => `/reel/${id}`)]
  let text = ''
  for (let path = waiting.shift(); path !== undefined; path = waiting.shift()) {
    if (seen.has(path)) continue
    seen.add(path)
    await page.goto(server.origin + path)
    await page.getByText('in touch', { exact: true }).waitFor()
    await page.waitForLoadState('load')
    await page.waitForTimeout(400)
    for (const list of await page.getByText('list', { exact: true }).all()) await list.click()
    for (const more of await page.locator('summary').all()) await more.click()
    expect([path, ...(await made(page))]).toEqual([path, 0, false])
    text += await page.evaluate(() => document.body.textContent)
    const links = await page.evaluate(() =>
      [...document.querySelectorAll('a[href^="/"]')].map((link) => link.getAttribute('href') ?? ''),
    )
    waiting.push(...links.filter((link) => !link.startsWith('/api') && !seen.has(link)))
    if (seen.size > 60) break
  }
  expect(seen.size).toBeGreaterThanOrEqual(4)
  for (const what of ['maker', 'make', 'colour', 'place', 'file', 'weighing']) {
    expect(text).toContain(markup(what))
  }
  expect(strange).toEqual([])
  expect(faults).toEqual([])
  await page.close()
}, 180_000)

test('the tables for a spreadsheet', () => {
  const folder = join(mkdtempSync(join(tmpdir(), 'reelreckon-markup-')), 'tables')
  const { exit, err } = runCli(['export', '--tables', folder, '--data', server.data])
  expect([exit, err]).toEqual([0, ''])
  const cells = readdirSync(folder).flatMap((name) =>
    (parse(readFileSync(join(folder, name), 'utf8')) as readonly string[][]).flat(),
  )
  for (const what of ['maker', 'make', 'material', 'colour', 'place', 'lot', 'note', 'person']) {
    expect(cells.some((cell) => cell.includes(markup(what)))).toBe(true)
  }
  for (const what of ['printer', 'scale', 'weighing', 'draw', 'file']) {
    expect(cells.some((cell) => cell.includes(markup(what)))).toBe(true)
  }
})
