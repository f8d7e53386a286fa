import { createHash } from 'node:crypto'
import {
  createReadStream,
  mkdtempSync,
  readdirSync,
  readFileSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { gzipSync } from 'node:zlib'
import type { Page } from 'playwright-core'
import { describe, expect, test } from 'vitest'
import { bigPrint } from '../../demo/big-print.ts'
import { printRowJson } from '../../src/contract/index.ts'
import { inventedLedger } from '../app/invented-ledger.ts'
import { serveApp } from '../app/serve-app.ts'
import {
  barriers,
  forAll,
  giveFile,
  type Opened,
  onEveryGround,
  openPage,
  stageOf,
  tabTo,
} from './in-browser.ts'

// The app in a real browser, as the real server serves it, on the ledger of the demo's bench.

const stage = stageOf({ server: 'bench', empty: 'empty' })

const open = (
  path: string,
  more: Parameters<typeof openPage>[2] = {},
  on = stage.server,
): Promise<Opened> => openPage(stage.browser, on.origin + path, more)

/**
 * Tells how long, in ms, the page's own thread has worked since it was last asked. The processor's
 * time, not the clock's: other work of the machine does not count.
 */
const busyness = async (page: Page): Promise<() => Promise<number>> => {
  const session = await page.context().newCDPSession(page)
  await session.send('Performance.enable', { timeDomain: 'threadTicks' })
  let before = 0
  return async () => {
    const { metrics } = await session.send('Performance.getMetrics')
    const now = 1000 * (metrics.find(({ name }) => name === 'TaskDuration')?.value ?? Number.NaN)
    const since = now - before
    before = now
    return since
  }
}

const answer = async (page: Page): Promise<void> => {
  await giveFile(page, join(stage.server.prints, 'tackle-box.gcode'))
  await page.getByRole('button', { name: 'REYRT' }).click()
  await page.getByLabel('Weigh reel REYRT').waitFor()
}

test('a first reel with slips bars nobody, by day, by night and on a phone', async () => {
  const { page, faults } = await open('/', {}, stage.empty)
  await page.getByRole('button', { name: 'Put it on the shelf' }).click()
  await page.getByRole('alert').waitFor()
  expect(await onEveryGround(page)).toEqual(forAll)
  expect(faults).toEqual([])
  await page.close()
})

test('what the drawing of a print shows stands in a table as well', async () => {
  const { page } = await open('/')
  await answer(page)
  const drawing = page.getByRole('img', { name: /^The print from the side/ })
  const said = (await drawing.getAttribute('aria-label')) ?? (await drawing.textContent()) ?? ''
  const [, change = '?'] = /Up to ([\d.]+\smm)/.exec(said) ?? []
  const [, likely = '?'] = /most likely runs dry at ([\d.]+\smm)/.exec(said) ?? []
  await page.getByText('What it rests on').click()
  const cells = (name: string): Promise<readonly string[]> =>
    page.getByRole('row', { name }).getByRole('cell').allTextContents()
  expect((await cells('last safe change'))[1]).toBe(change)
  expect((await cells('dry as likely before as after'))[1]).toBe(likely)
  const [, high = '?'] = /wide and ([\d.]+\smm) high/.exec(said) ?? []
  const heights = page.getByRole('table').filter({ hasText: 'Height reached' }).getByRole('row')
  expect(await heights.count()).toBeGreaterThan(3)
  expect(await heights.last().getByRole('cell').last().textContent()).toBe(high)
  expect(await onEveryGround(page)).toEqual(forAll)
  await page.close()
})

test('what bars somebody would be found', async () => {
  const { page } = await open('/')
  await page.getByRole('main').waitFor()
  await page.evaluate(() =>
    document.querySelector('main')?.append(document.createElement('button')),
  )
  const found = (await barriers(page)).map(({ id }) => id)
  expect(found).toContain('button-name')
  await page.close()
})

describe('by keyboard alone', () => {
  test('a print is chosen, another reel taken, a weighing tried', async () => {
    const { page } = await open('/')
    const kept: string[] = []
    page.on('request', (request) => {
      if (request.method() === 'PUT') kept.push(request.url())
    })
    await page.getByRole('button', { name: 'Choose a print file' }).waitFor()
    // Waited for well before the press: the browser is told by the way, and a key is quicker than a click.
    const chooser = page.waitForEvent('filechooser')
    await tabTo(page, /Choose a print file/)
    await page.keyboard.press('Enter')
    await (await chooser).setFiles(join(stage.server.prints, 'tackle-box.gcode'))
    await page.getByRole('region', { name: 'The answer' }).waitFor()
    await tabTo(page, /REYRT/)
    await page.keyboard.press('Space')
    await page.getByLabel('Weigh reel REYRT').waitFor()
    await page.keyboard.press('Shift+Tab')
    await page.getByLabel('Weigh reel REYRT').focus()
    await page.keyboard.type('25 oz')
    await page
      .getByText(/does not agree, so nothing is sure/)
      .first()
      .waitFor()
    expect(kept).toHaveLength(1)
    await page.close()
  })
  test('the shelf is searched, turned into a list, sorted, and left for a reel', async () => {
    const { page } = await open('/shelf')
    await page.getByText('12 reels').first().waitFor()
    await tabTo(page, /Find by words/)
    await page.keyboard.type('pla window')
    await page.getByText('4 of 12 reels').waitFor()
    await tabTo(page, /^discs/)
    await page.keyboard.press('ArrowRight')
    await page.getByRole('table').waitFor()
    await tabTo(page, /^Net/)
    await page.keyboard.press('Enter')
    const first = page.getByRole('table').getByRole('link').first()
    expect(await first.textContent()).toBe('REYRT')
    await tabTo(page, /^REYRT$/)
    await page.keyboard.press('Enter')
    await page.getByRole('heading', { name: 'Reel REYRT' }).waitFor()
    await page.close()
  })
})

const big = (): string => {
  const path = join(mkdtempSync(join(tmpdir(), 'reelreckon-big-')), 'big-print.gcode')
  const chunks: Uint8Array[] = []
  for (const chunk of bigPrint(100_000_000, { eMode: 'relative' })) chunks.push(chunk.slice())
  writeFileSync(path, Buffer.concat(chunks))
  return path
}
const sha256Of = async (path: string): Promise<string> => {
  const hash = createHash('sha256')
  for await (const chunk of createReadStream(path)) hash.update(chunk as Uint8Array)
  return hash.digest('hex')
}

/** Presses Cancel as soon as the page offers it: sooner than a test could from outside. */
const cancelAtOnce = (page: Page): Promise<void> =>
  page.evaluate(() => {
    const look = new MutationObserver(() => {
      if (document.querySelector('[role=progressbar]') === null) return
      const cancel = Array.from(document.querySelectorAll('button')).find(
        ({ textContent }) => textContent === 'Cancel',
      )
      look.disconnect()
      cancel?.click()
      Object.assign(globalThis, { cancelled: true })
    })
    look.observe(document.body, { childList: true, subtree: true })
  })

describe('reading', () => {
  test('100 MB leave the page at ease, can be cancelled, and are known by their hash', async () => {
    const path = big()
    const { page } = await open('/')
    const busy = await busyness(page)
    await cancelAtOnce(page)
    await giveFile(page, path)
    await page.waitForFunction(() => 'cancelled' in globalThis)
    await page.getByRole('button', { name: 'Choose a print file' }).waitFor()
    await busy()
    await giveFile(page, path)
    const windows: number[] = []
    // The work of a twentieth of a second and more; where that is short, so is every task in it.
    do {
      // oxlint-disable-next-line no-await-in-loop -- looks again and again
      await page.waitForTimeout(50)
      // oxlint-disable-next-line no-await-in-loop -- looks again and again
      windows.push(await busy())
      // oxlint-disable-next-line no-await-in-loop -- looks again and again
    } while ((await page.locator('main figure svg').count()) === 0)
    const median = windows.toSorted((a, b) => a - b)[Math.floor(windows.length / 2)] ?? Number.NaN
    expect(median, windows.join()).toBeLessThanOrEqual(50)
    await page.getByRole('region', { name: 'The answer' }).waitFor({ timeout: 50_000 })
    const title = (await sha256Of(path)).slice(0, 8)
    expect(await page.locator('footer').textContent()).toContain(title)
    await page.close()
  })
  test('the print is drawn before its hash is there, and then answered', async () => {
    let go: (() => void) | undefined
    const held = new Promise<void>((resolve) => (go = resolve))
    const { page } = await openPage(stage.browser, `${stage.server.origin}/`, {}, (one) =>
      one.route(/hashing-worker/, async (route) => {
        await held
        await route.continue()
      }),
    )
    await giveFile(page, join(stage.server.prints, 'tackle-box.gcode'))
    await page.getByText('Reckoning with every reel').waitFor()
    await page.locator('main figure svg').first().waitFor()
    expect(await page.getByRole('region', { name: 'The answer' }).count()).toBe(0)
    go?.()
    await page.getByRole('region', { name: 'The answer' }).waitFor()
    await page.close()
  })
  test('where a browser trusts the page with less, a print is known by the same hash', async () => {
    const kept: string[] = []
    // Plain http under another name: a browser trusts it with less.
    const { page } = await openPage(stage.browser, 'http://shelf.test/', {}, (one) =>
      one.route('**/*', async (route) => {
        const asked = new URL(route.request().url())
        if (asked.pathname === '/api/changes') return route.abort()
        if (asked.pathname.startsWith('/api/prints/')) kept.push(asked.pathname.slice(12))
        const {
          host: _host,
          origin: _origin,
          referer: _referer,
          ...headers
        } = route.request().headers()
        const url = stage.server.origin + asked.pathname + asked.search
        return route.fulfill({ response: await route.fetch({ url, headers }) })
      }),
    )
    expect(await page.evaluate(() => isSecureContext)).toBe(false)
    const path = join(stage.server.prints, 'vase.gcode')
    await giveFile(page, path)
    await page.getByRole('region', { name: 'The answer' }).waitFor()
    // It may be sent more than once: keeping a print again changes nothing.
    expect([...new Set(kept)]).toEqual([await sha256Of(path)])
    await page.close()
  })
  test('a file that is no print is refused in a sentence', async () => {
    const path = join(stage.server.prints, 'letter.txt')
    writeFileSync(path, 'Dear Tilde, the reels have come.\n')
    const { page } = await open('/')
    await giveFile(page, path)
    expect(await page.getByRole('alert').textContent()).toContain('letter.txt can not be read')
    await page.close()
  })
})

test('a key of a search in 2 000 reels takes 50 ms at the most, as a rule', async () => {
  const many = await serveApp(inventedLedger(2000))
  const { page } = await open('/shelf', {}, many)
  await page.getByText('2,000 reels').first().waitFor()
  const field = page.getByLabel(/Find by words/)
  await field.focus()
  const busy = await busyness(page)
  const keys: number[] = []
  for (const key of 'petg coral') {
    // oxlint-disable no-await-in-loop
    await busy()
    await page.keyboard.type(key)
    await page.waitForTimeout(200)
    keys.push(await busy())
  }
  await page.getByText(/^\d+ of 2,000 reels$/).waitFor()
  expect(Math.min(...keys)).toBeGreaterThan(0)
  // The median: a key's work is several tasks, and that of single keys varies with the machine.
  const median = keys.toSorted((a, b) => a - b)[keys.length / 2] ?? Number.NaN
  expect(median, keys.join()).toBeLessThanOrEqual(50)
  await page.close()
  await many.end()
})

test('a file that is dropped on the page is taken on Check, and opened by the browser nowhere', async () => {
  const { page, faults } = await open('/')
  await giveFile(page, join(stage.server.prints, 'tackle-box.gcode'))
  await page.getByRole('heading', { name: 'tackle-box.gcode' }).waitFor()
  /** @returns whether the browser was kept from its own way with files */
  const drop = (on: string): Promise<readonly boolean[]> =>
    page.locator(on).evaluate(
      (target, text) => {
        const dataTransfer = new DataTransfer()
        dataTransfer.items.add(new File([text], 'dropped.gcode'))
        return ['dragover', 'drop'].map(
          (name) =>
            !target.dispatchEvent(
              new DragEvent(name, { dataTransfer, bubbles: true, cancelable: true }),
            ),
        )
      },
      readFileSync(join(stage.server.prints, 'tackle-box.gcode'), 'utf8'),
    )
  expect(await drop('#drawn')).toEqual([true, true])
  await page.getByRole('heading', { name: 'dropped.gcode' }).waitFor()
  await page.getByRole('link', { name: 'Bench' }).click()
  await page.getByText('more; type to find them').waitFor()
  expect(await drop('body')).toEqual([true, true])
  expect(new URL(page.url()).pathname).toBe('/bench')
  expect(faults).toEqual([])
  await page.close()
}, 60_000)

test('a file whose E only a macro says is relative is judged once that is answered', async () => {
  const moves = Array.from({ length: 4000 }, (_, k) => {
    const [x, y] = [k % 4 === 1 || k % 4 === 2 ? 40 : 0, k % 4 > 1 ? 40 : 0]
    return `G1 X${x} Y${y} Z${(0.2 * (1 + Math.floor(k / 40))).toFixed(1)} E${1.3 + 0.01 * (k % 3)}`
  })
  const file = join(mkdtempSync(join(tmpdir(), 'reelreckon-macro-')), 'macro.gcode')
  writeFileSync(file, ['BEGIN_BED', ...moves, ''].join('\n'))
  const { page, faults } = await open('/')
  await giveFile(page, file)
  const says = page.getByRole('region', { name: 'About the file' })
  await says.getByText('It looks relative').waitFor()
  await page.getByText('the reels are judged once it is given').waitFor()
  expect(await page.getByRole('region', { name: 'The answer' }).count()).toBe(0)
  expect(await page.getByRole('button', { name: /^Start it/ }).count()).toBe(0)
  await says.getByRole('button', { name: 'E is relative' }).click()
  await page.getByRole('region', { name: 'The answer' }).waitFor()
  expect(faults).toEqual([])
  await page.close()
})

// What a phone at the edge of a workshop's network loads in about a second (2 Mbit/s).
test('the first load is within 250 kB, compressed', () => {
  const names = readdirSync('dist/app/assets').filter((name) => name.startsWith('index-'))
  expect(names.length).toBeGreaterThanOrEqual(2)
  const bytes = names.map((name) => {
    const path = join('dist/app/assets', name)
    expect(statSync(path).size).toBeGreaterThan(0)
    return gzipSync(readFileSync(path)).length
  })
  expect(bytes.reduce((sum, one) => sum + one, 0)).toBeLessThan(250_000)
})

test('what a file leaves open is asked, and read anew as it is answered', async () => {
  const layers = Array.from({ length: 600 }, (_, layer) => {
    const line = Array.from({ length: 20 }, (__, k) => `G1 X${k % 2 ? 0 : 50} E4.5`).join('\n')
    return `G1 Z${(0.2 * (layer + 1)).toFixed(1)}\n${line}\n`
  })
  const file = join(mkdtempSync(join(tmpdir(), 'reelreckon-asks-')), 'volume.gcode')
  writeFileSync(file, `G90\nM83\n${layers.join('')}`)
  const { page, faults } = await open('/')
  await giveFile(page, file)
  const says = page.getByRole('region', { name: 'About the file' })
  await says.getByText('E looks like mm³').waitFor()
  const hash = createHash('sha256').update(readFileSync(file)).digest('hex')
  const drawn = async (): Promise<number> => {
    const kept = await fetch(`${stage.server.origin}/api/prints/${hash}`)
    const { families } = printRowJson.parse(await kept.json())
    return families[0]?.tools[0]?.peak_mm ?? Number.NaN
  }
  await page.getByRole('region', { name: 'The answer' }).waitFor()
  expect(await drawn()).toBeCloseTo(600 * 20 * 4.5, 6)
  expect(await barriers(page)).toEqual([])
  await says.getByRole('button', { name: 'E is mm³' }).click()
  await says.getByText('E looks like mm³').waitFor({ state: 'detached' })
  await page.getByRole('region', { name: 'The answer' }).waitFor()
  // A cubic millimetre is 1 / (π/4 · 1.75²) mm of filament.
  const length = (600 * 20 * 4.5) / ((Math.PI / 4) * 1.75 ** 2)
  await expect.poll(drawn).toBeCloseTo(length, 3)
  await says.getByText('You said: E is mm³.').waitFor()
  expect(await barriers(page)).toEqual([])
  await says.getByRole('button', { name: 'Answer otherwise' }).click()
  await says.getByText('E looks like mm³').waitFor()
  expect(faults).toEqual([])
  await page.close()
})
