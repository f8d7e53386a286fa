import { mkdtempSync } from 'node:fs'
import { createServer } from 'node:http'
import { type AddressInfo, createServer as createSocket } from 'node:net'
import { networkInterfaces, tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { reelListJson, reelShowJson, rowsJson } from '../../src/contract/index.ts'
import { serveApp } from '../app/serve-app.ts'
import { runCli } from '../cli/run-cli.ts'
import { type RunningServe, startServe } from '../cli/start-serve.ts'
import { passPhrase } from '../http/served.ts'
import { barriers, giveFile, launch, openPage, stageOf } from './in-browser.ts'

// Pages and the server that they are in touch with, or not.

const stage = stageOf({ bench: 'bench' })

const titleBlock = (page: Page): Promise<string | null> => page.locator('footer').textContent()

const weighings = async (page: Page): Promise<number> =>
  page
    .locator('ol')
    .getByText(/^weighed/)
    .count()

test('two pages: what is weighed in one is seen in the other', async () => {
  const watching = await openPage(stage.browser, `${stage.bench.origin}/reel/QFMJY`)
  await watching.page.getByText('Its life').waitFor()
  const before = await weighings(watching.page)
  expect(before).toBeGreaterThan(0)
  const weighing = await openPage(stage.browser, `${stage.bench.origin}/reel/QFMJY`)
  await weighing.page.getByText('Its life').waitFor()
  const status = await weighing.page.evaluate(async () => {
    const answer = await fetch('/api/weighings', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({
        reel: 'QFMJY',
        accept: true,
        weighing: { reading_g: 390, scale: 'kitchen scale' },
      }),
    })
    return answer.status
  })
  expect(status).toBe(201)
  await watching.page.locator('ol').getByText('390 g').first().waitFor()
  expect(await weighings(watching.page)).toBe(before + 1)
  expect([...watching.faults, ...weighing.faults]).toEqual([])
  await watching.page.close()
  await weighing.page.close()
})

const freePort = (): Promise<number> =>
  new Promise((settle) => {
    const socket = createSocket()
    socket.listen(0, '127.0.0.1', () => {
      const { port } = socket.address() as AddressInfo
      socket.close(() => settle(port))
    })
  })

test('a server that ended: the page says that it is out of touch, and comes back with it', async () => {
  const data = mkdtempSync(join(tmpdir(), 'reelreckon-touch-'))
  const port = await freePort()
  const words = ['--port', String(port)]
  const first = await startServe(words, data)
  const { page } = await openPage(stage.browser, `http://127.0.0.1:${port}/shelf`)
  await page.getByText('in touch', { exact: true }).waitFor()
  expect(await titleBlock(page)).toContain('your own')
  await first.end()
  await page.getByText('out of touch').waitFor()
  // Written while the page hears nothing.
  const add = ['reel', 'add', '--make', 'Bight PLA', '--maker', 'Bight', '--data', data]
  expect(runCli(add).exit).toBe(0)
  const again = await startServe(words, data)
  await page.getByText('in touch', { exact: true }).waitFor()
  await page.getByText('1 reel', { exact: true }).first().waitFor()
  await again.end()
  await page.close()
})

test('what can not be asked any more is said, and the print stays at hand', async () => {
  const own = await serveApp('bench')
  const { page } = await openPage(stage.browser, own.origin)
  await giveFile(page, join(own.prints, 'tackle-box.gcode'))
  await page.getByRole('region', { name: 'The answer' }).waitFor()
  await own.end()
  await page.getByText('out of touch').waitFor()
  await page.getByRole('button', { name: 'REYRT' }).click()
  await page.getByText('The server can not be reached.').waitFor()
  expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe('tackle-box.gcode')
  // It is drawn still, and nothing is offered that can not be done.
  expect(await page.getByRole('img', { name: /^The print from the side/ }).count()).toBe(1)
  expect(await page.getByRole('link', { name: /on the slate/ }).count()).toBe(0)
  await page.close()
})

const elsewhere = Object.values(networkInterfaces())
  .flat()
  .find((each) => each?.family === 'IPv4' && !each.internal)?.address

const tryPhrase = async (page: Page, phrase: string): Promise<void> => {
  await page.getByLabel('Pass-phrase').fill(phrase)
  await page.keyboard.press('Enter')
}

/** All that the browser keeps of the app, as text. */
const keptHere = (page: Page): Promise<string> =>
  page.evaluate(
    () =>
      new Promise<string>((settle, fail) => {
        const asked = indexedDB.open('reelreckon')
        asked.addEventListener('error', () => fail(asked.error))
        asked.addEventListener('success', () => {
          const answers = asked.result.transaction('answers').objectStore('answers').getAll()
          answers.addEventListener('success', () => {
            asked.result.close()
            settle(JSON.stringify([answers.result, Object.entries(localStorage)]))
          })
        })
      }),
  )

describe.skipIf(elsewhere === undefined)('from another address', () => {
  let served: RunningServe
  let origin = ''
  beforeAll(async () => {
    const data = mkdtempSync(join(tmpdir(), 'reelreckon-log-in-'))
    const setUp = ['serve', '--new-pass-phrase', '--data', data]
    expect(runCli(setUp, { input: `${passPhrase}\n` }).exit).toBe(0)
    const add = ['reel', 'add', '--make', 'Bight PLA', '--maker', 'Bight', '--data', data]
    expect(runCli(add).exit).toBe(0)
    served = await startServe(['--host', '0.0.0.0'], data)
    origin = `http://${elsewhere}:${served.port}`
  }, 120_000)
  afterAll(async () => {
    await served?.end()
  })

  test('the page asks for the pass-phrase, shows the shelf with it, and nothing after', async () => {
    const { page } = await openPage(stage.browser, `${origin}/shelf`)
    await page.getByRole('heading', { name: 'Log in' }).waitFor()
    expect(await page.locator('body').textContent()).not.toContain('Bight')
    await tryPhrase(page, 'gulls sleep on two legs')
    await page.getByRole('alert').getByText('That is not the pass-phrase.').waitFor()
    expect(await barriers(page)).toEqual([])
    await page.emulateMedia({ colorScheme: 'dark' })
    expect(await barriers(page)).toEqual([])
    await tryPhrase(page, passPhrase)
    await page.getByText('1 reel', { exact: true }).first().waitFor()
    await page.getByText('in touch', { exact: true }).waitFor()
    await page.reload()
    await page.getByText('1 reel', { exact: true }).first().waitFor()
    await page.getByRole('button', { name: 'Log out' }).click()
    await page.getByRole('heading', { name: 'Log in' }).waitFor()
    expect(await page.locator('ul').count()).toBe(0)
    expect(await page.evaluate(async () => (await fetch('/api/reels')).status)).toBe(401)
    await page.close()
  })

  test('logging out in one page logs out the others, and nothing of the shelf stays in the browser', async () => {
    const context = await stage.browser.newContext({ reducedMotion: 'reduce' })
    const [one, other] = [await context.newPage(), await context.newPage()]
    await one.goto(`${origin}/shelf`)
    await tryPhrase(one, passPhrase)
    const reel = one.locator('a[href^="/reel/"]').first()
    const id = (await reel.getAttribute('href'))?.split('/')[2] ?? ''
    await one.goto(`${origin}/bench?reel=${id}`)
    await one.getByLabel('The scale shows').fill('1200')
    await one.getByRole('button', { name: 'Keep it' }).click()
    await other.goto(`${origin}/shelf`)
    await other.getByText('1 reel', { exact: true }).first().waitFor()
    // A page that nobody sees has to hear of it, too.
    expect(await keptHere(one)).toContain('Bight')
    await one.getByRole('button', { name: 'Log out' }).click()
    await one.getByRole('heading', { name: 'Log in' }).waitFor()
    await other.getByRole('heading', { name: 'Log in' }).waitFor()
    for (const page of [one, other]) {
      // oxlint-disable-next-line no-await-in-loop -- one page after the other
      await expect.poll(() => keptHere(page)).not.toMatch(new RegExp(`Bight|${id}`))
    }
    // Logging in in one page lets the other in.
    await tryPhrase(other, passPhrase)
    await other.getByText('1 reel', { exact: true }).first().waitFor()
    await one.getByRole('navigation', { name: 'Sheets' }).waitFor()
    await context.close()
  })

  test('a session that ended elsewhere: the page asks again', async () => {
    const { page } = await openPage(stage.browser, `${origin}/shelf`)
    await tryPhrase(page, passPhrase)
    await page.getByText('1 reel', { exact: true }).first().waitFor()
    await page.context().clearCookies()
    await page.getByRole('link', { name: 'Shelf' }).waitFor()
    const reel = page.locator('a[href^="/reel/"]').first()
    await reel.click()
    await page.getByRole('heading', { name: 'Log in' }).waitFor()
    await tryPhrase(page, passPhrase)
    await page.getByText('Its life').waitFor()
    await page.close()
  })

  test('a session that ended under somebody’s hands: what was typed stays, and a weighing waits', async () => {
    const { page } = await openPage(stage.browser, `${origin}/bench?measure=arrivals`)
    await tryPhrase(page, passPhrase)
    const lot = page.getByLabel('Lot')
    await lot.fill('N 7')
    await page.getByRole('combobox', { name: 'Make' }).fill('Fulmar PLA')
    await page.getByLabel('Its maker').fill('Fulmar')
    await page.context().clearCookies()
    await page.getByRole('button', { name: 'Keep it' }).click()
    await page.getByRole('heading', { name: 'Log in' }).waitFor()
    // Nothing of the sheet is to be seen or pressed.
    expect(await lot.isVisible()).toBe(false)
    expect(await page.getByRole('button').allTextContents()).toEqual(['Log in'])
    expect(await barriers(page)).toEqual([])
    // The keys are at the pass-phrase, and then where they were.
    await page.keyboard.type(passPhrase)
    await page.keyboard.press('Enter')
    await lot.waitFor()
    expect(await lot.inputValue()).toBe('N 7')
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Keep it')
    expect(await page.title()).toContain('Bench')
    await page.getByRole('button', { name: 'Keep it' }).click()
    await page.getByRole('heading', { name: 'It is written down' }).waitFor()
    const id = await page
      .getByRole('list', { name: 'Ids of the reels' })
      .getByRole('link')
      .innerText()
    // Asked beside the page, which may be waiting itself.
    const weighed = async (): Promise<number> => {
      const response = await page.request.get(`${origin}/api/reels/${id}`, { timeout: 5000 })
      const { facts } = reelShowJson.parse(await response.json())
      return facts.filter(({ kind }) => kind === 'weighed').length
    }
    await page.goto(`${origin}/bench?reel=${id}`)
    const tested = page.waitForResponse(
      (response) => response.request().postDataJSON()?.weighing?.reading_g === 1200,
    )
    await page.getByLabel('The scale shows').fill('1200')
    await tested
    await page.context().clearCookies()
    await page.getByRole('button', { name: 'Keep it' }).click()
    await page.getByRole('heading', { name: 'Log in' }).waitFor()
    await tryPhrase(page, passPhrase)
    await page.getByText('It waits in this browser').waitFor()
    await expect.poll(weighed, { timeout: 20_000 }).toBe(1)
    await page.getByRole('button', { name: 'Log out' }).click()
    await page.getByRole('heading', { name: 'Log in' }).waitFor()
    expect(await page.locator('body').textContent()).not.toContain(id)
    await page.close()
  }, 180_000)

  test('after many wrong pass-phrases it makes one wait', async () => {
    const { page } = await openPage(stage.browser, origin)
    await page.getByRole('heading', { name: 'Log in' }).waitFor()
    for (let tries = 0; tries < 5; tries++) {
      // One after another is the point.
      // oxlint-disable no-await-in-loop
      const answer = page.waitForResponse(/api\/session$/)
      await tryPhrase(page, `gulls sleep on ${tries} legs and more`)
      await answer
      // What is sent before the page has heard the answer is not sent.
      await page.getByRole('alert').waitFor()
    }
    await page.getByText(/^Too many wrong pass-phrases\. Try again in \d+ s\.$/).waitFor()
    await page.close()
  })
})

const people = async (): Promise<string> =>
  JSON.stringify(
    rowsJson.parse(await (await fetch(`${stage.bench.origin}/api/rows/person`)).json()).rows,
  )
const reels = async (): Promise<number> =>
  reelListJson.parse(await (await fetch(`${stage.bench.origin}/api/reels`)).json()).reels.length

describe('a page of another origin', () => {
  test('posts in vain, and reads nothing', async () => {
    const other = createServer((_, response) =>
      response.writeHead(200, { 'content-type': 'text/html' }).end('<!doctype html><p>Elsewhere'),
    )
    await new Promise<void>((ready) => {
      other.listen(0, '127.0.0.1', ready)
    })
    const { port } = other.address() as AddressInfo
    const before = [await people(), await reels()]
    // The same site with another port, and another site.
    for (const host of ['127.0.0.1', 'localhost']) {
      // oxlint-disable no-await-in-loop
      const { page } = await openPage(stage.browser, `http://${host}:${port}/`)
      const got = await page.evaluate(async (origin) => {
        const body = JSON.stringify({ name: 'Eve' })
        // It runs in the page, where nothing else is.
        // oxlint-disable-next-line unicorn/consistent-function-scoping
        const tell = async (asked: Promise<Response>): Promise<string> =>
          asked.then(
            ({ status, type }) => `${type} ${status}`,
            () => 'refused',
          )
        return [
          await tell(fetch(`${origin}/api/rows/person`, { method: 'POST', body, mode: 'no-cors' })),
          await tell(
            fetch(`${origin}/api/rows/person`, {
              method: 'POST',
              body,
              headers: { 'content-type': 'application/json' },
            }),
          ),
          await tell(fetch(`${origin}/api/demo`, { method: 'POST', mode: 'no-cors' })),
          await tell(fetch(`${origin}/api/reels`)),
        ]
      }, stage.bench.origin)
      // Of the first and third an answer that the page can not look into, or none.
      expect(got[1]).toBe('refused')
      expect(got[3]).toBe('refused')
      const form = await page.evaluate((origin) => {
        document.body.innerHTML = `<form method="post" enctype="text/plain" action="${origin}/api/demo"><button>Go</button></form>`
        document.querySelector('form')?.submit()
        return true
      }, stage.bench.origin)
      expect(form).toBe(true)
      await page.waitForURL(`${stage.bench.origin}/api/demo`)
      expect(await page.locator('body').textContent()).toContain('cross_site')
      await page.close()
    }
    other.close()
    expect([await people(), await reels()]).toEqual(before)
  })

  test('a name that is not the server’s own is refused', async () => {
    const strange = await launch('--host-resolver-rules=MAP rebound.example 127.0.0.1')
    const { port } = new URL(stage.bench.origin)
    const page = await strange.newPage()
    const answer = await page.goto(`http://rebound.example:${port}/api/reels`)
    expect(answer?.status()).toBe(421)
    expect(await page.locator('body').textContent()).toContain('host_unknown')
    await strange.close()
  })
})
