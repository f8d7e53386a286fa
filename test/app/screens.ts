// Makes the pictures of docs/screens: node test/app/screens.ts [NAME …]. Wants `npm run build` before.
import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { chromium, type Page } from 'playwright-core'
import { ensureChromium } from '../../scripts/find-chromium.ts'
import { inventedLedger } from './invented-ledger.ts'
import { serveApp } from './serve-app.ts'
import { serveLocked } from './serve-locked.ts'
import { type Screen, screens, settle } from './sheets-shown.ts'

/** Makes the window as high as the sheet, so that what stands fixed at the foot stands there. */
const showWhole = async (
  page: Page,
  viewport: { readonly width: number; readonly height: number },
): Promise<void> => {
  // A sheet is never lower than its window: what was higher before would leave a gap.
  await page.setViewportSize(viewport)
  await page.waitForTimeout(300)
  for (let before = -1; ; ) {
    // oxlint-disable no-await-in-loop -- what comes late makes the sheet higher
    await settle(page)
    const height = await page.evaluate(() => document.documentElement.scrollHeight)
    if (height === before) return
    before = height
    await page.setViewportSize({
      ...viewport,
      height: Math.min(Math.max(height, viewport.height), highest),
    })
    await page.waitForTimeout(300)
    // oxlint-enable no-await-in-loop
  }
}

const sizes = { phone: { width: 390, height: 844 }, desk: { width: 1280, height: 900 } }
/** Pixels; what is below is cut off. */
const highest = 9000
const out = fileURLToPath(new URL('../../docs/screens', import.meta.url))
const wanted = process.argv.slice(2)

mkdirSync(out, { recursive: true })
const servers = {
  bench: await serveApp('bench'),
  empty: await serveApp('empty'),
  '300': await serveApp(inventedLedger(300)),
  locked: await serveLocked(),
}
const browser = await chromium.launch({
  executablePath: ensureChromium(),
  args: ['--no-sandbox', '--lang=en-GB', '--disable-background-networking'],
})
// One after another: two cores draw no faster side by side.
// oxlint-disable no-await-in-loop

const media = {
  day: { colorScheme: 'light' },
  night: { colorScheme: 'dark' },
  forced: { colorScheme: 'dark', forcedColors: 'active' },
} as const
/** Sheets that say something in colours or lines: they are drawn with the system's colours too. */
const inForcedColours = new Set([
  'check-close',
  'check-surprise',
  'shelf',
  'slate',
  'reel',
  'bench-weigh',
])

/** Draws one sheet by day and by night. */
const draw = async (
  { name, path, act, on = 'bench' }: Screen,
  size: keyof typeof sizes,
  grounds: readonly (readonly [keyof typeof media, file: string])[],
): Promise<void> => {
  const viewport = sizes[size]
  // What one sheet keeps in the browser is not on the next.
  const context = await browser.newContext({ viewport, locale: 'en-GB', reducedMotion: 'reduce' })
  const server = on === 'own' ? await serveApp('bench') : servers[on]
  try {
    const page = await context.newPage()
    page.setDefaultTimeout(40_000)
    page.on('pageerror', (error) => console.error(`${name}: ${error.message}`))
    await page.goto(server.origin + path)
    await act?.(page, server)
    await settle(page)
    for (const [ground, file] of grounds) {
      await page.emulateMedia(media[ground])
      await showWhole(page, viewport)
      await page.screenshot({ path: join(out, file) })
      console.log(file)
    }
  } finally {
    await context.close()
    if (on === 'own') await server.end()
  }
}

try {
  for (const size of ['phone', 'desk'] as const) {
    for (const screen of screens) {
      const grounds = [
        ['day', `${screen.name}-${size}-day.png`],
        ['night', `${screen.name}-${size}-night.png`],
        ...(size === 'desk' && inForcedColours.has(screen.name)
          ? [['forced', `${screen.name}-${size}-forced.png`] as const]
          : []),
      ] as const
      const asked = grounds.filter(
        ([, file]) => wanted.length === 0 || wanted.some((part) => file.startsWith(part)),
      )
      if (asked.length === 0) continue
      // One that could not be brought about is told, and its old picture stays.
      await draw(screen, size, asked).catch((error: unknown) => {
        console.error(`${screen.name} at a ${size}:`, error)
        process.exitCode = 1
      })
    }
  }
} finally {
  await browser.close()
  await Promise.all(Object.values(servers).map(({ end }) => end()))
}
