import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import {
  type ReelShowJson,
  type RunningPrintsJson,
  reelShowJson,
  runningPrintsJson,
} from '../../src/contract/index.ts'
import { keptApp } from '../app/kept-app.ts'
import { stageOf } from './in-browser.ts'

// The app without its server: it opens, and weighings wait until they can be sent.

const stage = stageOf({ server: 'bench' })

const shown = async (reel: string): Promise<ReelShowJson> =>
  reelShowJson.parse(await (await fetch(`${stage.server.origin}/api/reels/${reel}`)).json())

const weighings = async (reel: string): Promise<number> =>
  (await shown(reel)).facts.filter(({ kind }) => kind === 'weighed').length

/** A page whose browser keeps the app, out of touch with its server from now on. */
const outOfTouch = async (): Promise<Page> => {
  const context = await stage.browser.newContext({ reducedMotion: 'reduce' })
  const page = await context.newPage()
  const scales = page.waitForResponse(/\/api\/rows\/scale/)
  await page.goto(`${stage.server.origin}/shelf`)
  await (await scales).finished()
  await page.getByText('12 reels').first().waitFor()
  await page.getByText('in touch', { exact: true }).waitFor()
  await keptApp(page)
  await context.setOffline(true)
  return page
}

const weigh = async (page: Page, reel: string, grams: string): Promise<void> => {
  await page.goto(`${stage.server.origin}/bench?reel=${reel}`)
  await page.getByLabel('The scale shows').fill(grams)
  await page.getByRole('button', { name: 'Keep it' }).click()
  await page.getByText('It waits in this browser').waitFor()
}

test('the app opens without its server, with the shelf as it was last seen', async () => {
  const page = await outOfTouch()
  await page.reload()
  await page.getByText('12 reels').first().waitFor()
  await page.context().close()
}, 60_000)

test('the app is kept when no print is being read, on this page or another', async () => {
  const context = await stage.browser.newContext()
  const page = await context.newPage()
  const reading = await context.newPage()
  await reading.goto(`${stage.server.origin}/`)
  // As long as a file is read it holds this.
  await reading.evaluate(
    () =>
      new Promise<void>((held) => {
        void navigator.locks.request('reelreckon-reading', { mode: 'shared' }, () => {
          held()
          return new Promise(() => {})
        })
      }),
  )
  await page.goto(`${stage.server.origin}/shelf`)
  const isWaiting = (): Promise<boolean> =>
    page.evaluate(async () =>
      ((await navigator.locks.query()).pending ?? []).some(
        ({ name }) => name === 'reelreckon-reading',
      ),
    )
  await expect.poll(isWaiting).toBe(true)
  expect(
    await page.evaluate(async () => (await navigator.serviceWorker.getRegistrations()).length),
  ).toBe(0)
  await reading.close()
  await keptApp(page)
  await context.close()
}, 60_000)

test('a sheet out of touch stays as it is: what is typed slowly stays, and the server is left alone', async () => {
  const page = await outOfTouch()
  await page.goto(`${stage.server.origin}/bench?reel=REYRT`)
  const field = page.getByLabel('The scale shows')
  await field.waitFor()
  let asked = 0
  page.on('request', (request) => {
    if (request.url().endsWith('/api/session')) asked++
  })
  await field.pressSequentially('231.5', { delay: 600 })
  expect(await field.inputValue()).toBe('231.5')
  // It is looked for every two seconds.
  expect(asked).toBeLessThanOrEqual(4)
  await page.context().close()
}, 60_000)

const running = async (): Promise<RunningPrintsJson['running']> =>
  runningPrintsJson.parse(await (await fetch(`${stage.server.origin}/api/running`)).json()).running

test('a print that is started without the server is known to it later, once', async () => {
  const context = await stage.browser.newContext({ reducedMotion: 'reduce' })
  const page = await context.newPage()
  await page.goto(stage.server.origin)
  const chooser = page.waitForEvent('filechooser')
  await page.getByRole('button', { name: 'Choose a print file' }).click()
  await (await chooser).setFiles(join(stage.server.prints, 'knob.gcode'))
  await page.getByRole('region', { name: 'The answer' }).waitFor()
  await context.setOffline(true)
  await page.getByRole('button', { name: /^Start it on/ }).click()
  const row = page.getByRole('region', { name: 'Running' }).getByRole('listitem')
  await row.getByText('That it was started waits in this browser').waitFor()
  expect(await running()).toEqual([])
  // What the server refuses stays, is in no plan, and is sent again by a press.
  const refused = { type: 'about:blank', title: '', status: 400, code: 'reel_unknown' }
  await page.route('**/api/running', (route) =>
    route.request().method() === 'POST'
      ? route.fulfill({
          status: 400,
          contentType: 'application/problem+json',
          json: { ...refused, detail: 'No such reel.' },
        })
      : route.fallback(),
  )
  await context.setOffline(false)
  await row.getByText('did not take it: No such reel.').waitFor({ timeout: 40_000 })
  await page.goto(`${stage.server.origin}/slate`)
  await page.getByText('knob.gcode runs, but only this browser knows it').waitFor()
  await page.goto(stage.server.origin)
  await page.unroute('**/api/running')
  await row.getByRole('button', { name: 'Try again' }).click()
  await row.getByRole('alert').waitFor({ state: 'detached', timeout: 40_000 })
  await expect.poll(running, { timeout: 40_000 }).toHaveLength(1)
  await row.getByText('That it was started waits').waitFor({ state: 'detached', timeout: 40_000 })
  const [one, ...more] = await running()
  expect(more).toEqual([])
  expect(await row.count()).toBe(1)
  // Without the server it is taken back, too, and with it gone.
  await context.setOffline(true)
  await row.getByRole('button', { name: 'It never ran' }).click()
  await row.waitFor({ state: 'detached' })
  expect((await running()).map(({ row: { id } }) => id)).toEqual([one?.row.id])
  await context.setOffline(false)
  await expect.poll(running, { timeout: 40_000 }).toEqual([])
  await context.close()
}, 120_000)

test('a weighing made without the server is written down once, when it was made', async () => {
  const page = await outOfTouch()
  const before = await weighings('REYRT')
  const { tare_g: tare, net_g: net } = await shown('REYRT')
  const grams = Math.round((tare?.value ?? 0) + (net?.value ?? 0))
  const from = Date.now()
  await weigh(page, 'REYRT', String(grams))
  await page.getByText('One weighing waits here for the server.').waitFor()
  const until = Date.now()
  // It outlives the page, and another page of the browser has it too.
  await page.reload()
  await page.getByText('One weighing waits here for the server.').waitFor()
  const other = await page.context().newPage()
  await other.goto(`${stage.server.origin}/shelf`)
  await other.getByText('One weighing waits here for the server.').waitFor()
  expect(await weighings('REYRT')).toBe(before)
  await page.context().setOffline(false)
  await expect.poll(() => weighings('REYRT'), { timeout: 40_000 }).toBe(before + 1)
  for (const each of [page, other]) {
    // oxlint-disable-next-line no-await-in-loop -- one page after the other
    await each.getByText('waits here for the server').waitFor({ state: 'detached' })
  }
  const { facts } = await shown('REYRT')
  const made = facts.findLast(({ kind }) => kind === 'weighed')
  expect(Date.parse(made?.at ?? '')).toBeGreaterThanOrEqual(from)
  expect(Date.parse(made?.at ?? '')).toBeLessThanOrEqual(until)
  await page.context().close()
  expect(await weighings('REYRT')).toBe(before + 1)
}, 120_000)

test('what is typed stays while the page looks for its server', async () => {
  const page = await outOfTouch()
  await page.goto(`${stage.server.origin}/bench?reel=REYRT`)
  const field = page.getByLabel('The scale shows')
  await field.fill('423')
  await page.evaluate(() => document.querySelector('main')?.setAttribute('data-seen', ''))
  await page.getByText('out of touch').waitFor()
  // Asked for several times over.
  await page.waitForTimeout(6000)
  expect(await page.locator('main[data-seen]').count()).toBe(1)
  expect(await field.inputValue()).toBe('423')
  await page.context().close()
}, 60_000)

test('one that surprises waits for a person, who takes it or leaves it out', async () => {
  const page = await outOfTouch()
  const before = await weighings('QFMJY')
  await weigh(page, 'QFMJY', '600')
  await weigh(page, 'QFMJY', '601')
  await page.context().setOffline(false)
  await page.getByText('2 weighings were not taken: have a look.').waitFor({ timeout: 40_000 })
  expect(await weighings('QFMJY')).toBe(before)
  await page.getByRole('button', { name: 'Leave it out' }).first().click()
  await page.getByText('One weighing was not taken: have a look.').waitFor()
  await page.getByRole('button', { name: 'Take it as it is' }).click()
  await expect.poll(() => weighings('QFMJY'), { timeout: 20_000 }).toBe(before + 1)
  await page.locator('details', { hasText: 'weighing' }).waitFor({ state: 'detached' })
  expect((await shown('QFMJY')).facts.some(({ what }) => what.includes('601 g'))).toBe(true)
  await page.context().close()
}, 120_000)

test('a weighing waits for the ledger it was made for', async () => {
  const page = await outOfTouch()
  const before = await weighings('REYRT')
  const { tare_g: tare, net_g: net } = await shown('REYRT')
  await weigh(page, 'REYRT', String(Math.round((tare?.value ?? 0) + (net?.value ?? 0))))
  await fetch(`${stage.server.origin}/api/demo`, { method: 'POST' })
  const inDemo = await weighings('REYRT')
  await page.context().setOffline(false)
  await page.getByText('One weighing waits here for another ledger.').waitFor({ timeout: 40_000 })
  await page.getByText('demo shelf', { exact: true }).waitFor()
  await page.reload()
  await page.getByText('One weighing waits here for another ledger.').waitFor()
  expect(await weighings('REYRT')).toBe(inDemo)
  await fetch(`${stage.server.origin}/api/demo`, { method: 'DELETE' })
  await expect.poll(() => weighings('REYRT'), { timeout: 40_000 }).toBe(before + 1)
  await page.getByText('waits here').waitFor({ state: 'detached' })
  await page.context().close()
}, 120_000)
