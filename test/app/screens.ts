// Makes the pictures of docs/screens: node test/app/screens.ts [NAME …]. Wants `npm run build` before.
import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { chromium, type Page } from 'playwright-core'
import { ensureChromium } from '../../scripts/find-chromium.ts'
import { inventedLedger } from './invented-ledger.ts'
import { type ServedApp, serveApp } from './serve-app.ts'

interface Screen {
  readonly name: string
  readonly path: string
  /** The bench unless given; `ended` is one that has ended when the page is drawn. */
  readonly on?: 'empty' | '300' | 'ended'
  readonly act?: (page: Page, server: ServedApp) => Promise<void>
}

const give = async (page: Page, file: string): Promise<void> => {
  const chooser = page.waitForEvent('filechooser')
  await page.getByRole('button', { name: 'Choose a print file' }).click()
  await (await chooser).setFiles(file)
}

const check =
  (file: string, reel: string | null = null) =>
  async (page: Page, { prints }: ServedApp): Promise<void> => {
    await give(page, join(prints, file))
    await page.getByRole('region', { name: 'The answer' }).waitFor()
    if (reel === null) return
    await page.getByRole('button', { name: reel }).click()
    await page.getByRole('link', { name: `Reel ${reel}` }).waitFor()
  }

const screens: readonly Screen[] = [
  { name: 'check-empty', path: '/' },
  {
    name: 'check-first',
    path: '/',
    on: 'empty',
    act: (page) => page.getByText('No reels yet.').waitFor(),
  },
  { name: 'check-enough', path: '/', act: check('tackle-box.gcode') },
  { name: 'check-close', path: '/', act: check('tackle-box.gcode', 'REYRT') },
  { name: 'check-short', path: '/', act: check('tackle-box.gcode', 'QFMJY') },
  { name: 'check-tools', path: '/', act: check('two-tool-part.gcode') },
  {
    name: 'check-refused',
    path: '/',
    act: async (page, { prints }) => {
      writeFileSync(join(prints, 'letter.txt'), 'Dear Tilde, the reels have come.\n')
      await give(page, join(prints, 'letter.txt'))
      await page.getByRole('alert').waitFor()
    },
  },
  {
    name: 'check-error',
    path: '/',
    on: 'ended',
    act: async (page, { prints, end }) => {
      await give(page, join(prints, 'tackle-box.gcode'))
      await page.getByRole('region', { name: 'The answer' }).waitFor()
      await end()
      await page.getByText('out of touch').waitFor()
      await page.getByRole('button', { name: 'QFMJY' }).click()
      await page.getByRole('alert').waitFor()
    },
  },
  {
    name: 'shelf',
    path: '/shelf',
    act: async (page) => page.getByText('12 reels').first().waitFor(),
  },
  {
    name: 'shelf-empty',
    path: '/shelf',
    on: 'empty',
    act: (page) => page.getByText('No reels yet.').waitFor(),
  },
  {
    name: 'shelf-300',
    path: '/shelf',
    on: '300',
    act: async (page) => page.getByText('300 reels').first().waitFor(),
  },
  {
    name: 'shelf-list',
    path: '/shelf',
    act: async (page) => {
      await page.getByText('list', { exact: true }).click()
      await page.getByRole('table').waitFor()
    },
  },
  { name: 'reel', path: '/reel/QFMJY', act: (page) => page.getByText('Its life').waitFor() },
]

const sizes = { phone: { width: 390, height: 844 }, desk: { width: 1280, height: 900 } }
const out = fileURLToPath(new URL('../../docs/screens', import.meta.url))
const wanted = process.argv.slice(2)

mkdirSync(out, { recursive: true })
const servers = {
  bench: await serveApp('bench'),
  empty: await serveApp('empty'),
  '300': await serveApp(inventedLedger(300)),
}
const browser = await chromium.launch({
  executablePath: ensureChromium(),
  args: ['--no-sandbox', '--disable-background-networking'],
})
try {
  // One after another: two cores draw no faster side by side.
  // oxlint-disable no-await-in-loop
  for (const [size, viewport] of Object.entries(sizes)) {
    for (const ground of ['light', 'dark'] as const) {
      const context = await browser.newContext({
        viewport,
        colorScheme: ground,
        reducedMotion: 'reduce',
      })
      for (const { name, path, act, on = 'bench' } of screens) {
        const file = `${name}-${size}-${ground === 'light' ? 'day' : 'night'}.png`
        if (wanted.length > 0 && !wanted.some((part) => file.includes(part))) continue
        const page = await context.newPage()
        page.on('console', (message) => {
          if (message.type() === 'error') console.error(`${file}: ${message.text()}`)
        })
        page.on('pageerror', (error) => console.error(`${file}: ${error.message}`))
        const server = on === 'ended' ? await serveApp('bench') : servers[on]
        await page.goto(server.origin + path)
        await act?.(page, server)
        await page.evaluate(() => document.fonts.ready)
        // As high as the sheet, so that what stands fixed at the foot stands there.
        const height = await page.evaluate(() => document.documentElement.scrollHeight)
        await page.setViewportSize({ ...viewport, height: Math.max(height, viewport.height) })
        await page.screenshot({ path: join(out, file) })
        await page.close()
        console.log(file)
      }
      await context.close()
    }
  }
} finally {
  await browser.close()
  await Promise.all(Object.values(servers).map(({ end }) => end()))
}
