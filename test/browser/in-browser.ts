import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { type Browser, chromium, type Page } from 'playwright-core'
import { afterAll, beforeAll } from 'vitest'
import { ensureChromium } from '../../scripts/find-chromium.ts'
import { type ServedApp, serveApp } from '../app/serve-app.ts'

/** The system's Chromium, asking nobody else for anything. */
export const launch = (...more: readonly string[]): Promise<Browser> =>
  chromium.launch({
    executablePath: ensureChromium(),
    args: ['--no-sandbox', '--disable-background-networking', ...more],
  })

/** What the tests of a file stand on. */
export interface Stage {
  readonly browser: Browser
  /** Begins another server, which ends with the file. @param ledger - as `serveApp` takes it */
  readonly serve: (ledger: string) => Promise<ServedApp>
  /**
   * The harbour bench as it was at first, on one server for all tests of the file: its ledger is put back, for to
   * begin a server takes longer than most tests of it.
   */
  readonly bench: () => Promise<ServedApp>
}

/**
 * A browser, and servers on ledgers of their own, for all tests of a file.
 *
 * @param ledgers - by the name of the server, as `serveApp` takes them
 */
export const stageOf = <Name extends string = never>(
  ledgers: Readonly<Record<Name, string>> = {} as Record<Name, string>,
): Stage & Readonly<Record<Name, ServedApp>> => {
  const begun: ServedApp[] = []
  const serve = async (ledger: string): Promise<ServedApp> => {
    const server = await serveApp(ledger)
    begun.push(server)
    return server
  }
  let first: { readonly server: ServedApp; readonly backup: Blob } | undefined
  const bench = async (): Promise<ServedApp> => {
    if (first === undefined) {
      const server = await serve('bench')
      const response = await fetch(`${server.origin}/api/backup`)
      first = { server, backup: await response.blob() }
      return server
    }
    const { server, backup } = first
    const { ok, status } = await fetch(`${server.origin}/api/restore`, {
      method: 'POST',
      headers: { 'content-type': 'application/vnd.sqlite3' },
      body: backup,
    })
    if (!ok) throw new Error(`The ledger was not put back: ${status}`)
    return server
  }
  const stage = { serve, bench } as Stage & Record<Name, ServedApp>
  beforeAll(async () => {
    Object.assign(stage, { browser: await launch() })
    for (const [name, ledger] of Object.entries<string>(ledgers)) {
      // oxlint-disable-next-line no-await-in-loop -- each wants a processor for itself
      Object.assign(stage, { [name]: await serve(ledger) })
    }
  }, 240_000)
  afterAll(async () => {
    await stage.browser?.close()
    await Promise.all(begun.map(({ end }) => end()))
  })
  return stage
}

/** A page, and what went wrong in it. */
export interface Opened {
  readonly page: Page
  readonly faults: readonly string[]
}

/**
 * A page at an address, in a context of its own.
 *
 * @param before - done before the address is asked for
 * @param expected - complaints of the browser that are no fault
 */
export const openPage = async (
  browser: Browser,
  address: string,
  more: Parameters<Browser['newPage']>[0] = {},
  before: (page: Page) => Promise<unknown> = async () => {},
  expected?: RegExp,
): Promise<Opened> => {
  // To keep the app for use without its server takes as long as all else of a page: what is tested of that
  // stands in offline.test.ts.
  const page = await browser.newPage({
    reducedMotion: 'reduce',
    serviceWorkers: 'block',
    ...more,
  })
  const faults: string[] = []
  page.on('pageerror', ({ message }) => faults.push(message))
  page.on('console', (message) => {
    if (message.type() !== 'error' || expected?.test(message.text())) return
    faults.push(message.text())
  })
  await before(page)
  await page.goto(address)
  // A browser may let go of what is pressed before there is anything to be seen.
  await page.waitForFunction(() => performance.getEntriesByType('paint').length > 0)
  return { page, faults }
}

/** Chooses a file as a person does. */
export const giveFile = async (page: Page, file: string): Promise<void> => {
  const chooser = page.waitForEvent('filechooser')
  await page.getByRole('button', { name: 'Choose a print file' }).click()
  await (await chooser).setFiles(file)
}

/** Says that a print may be made of whatever there is, where there is more than one material. */
export const ofAnyMaterial = async (page: Page): Promise<void> => {
  const any = page.getByRole('radio', { name: 'any', exact: true })
  if ((await any.count()) > 0) await any.check({ force: true })
}

/**
 * Presses Tab until the focus is on what has such a name.
 *
 * @throws Error that tells what was come by
 */
export const tabTo = async (page: Page, name: RegExp): Promise<void> => {
  const names: string[] = []
  for (let presses = 0; presses < 80; presses++) {
    // oxlint-disable-next-line no-await-in-loop -- one press after another
    await page.keyboard.press('Tab')
    // oxlint-disable-next-line no-await-in-loop -- one press after another
    const at = await page.evaluate(() => {
      const active = document.activeElement
      // Where nothing has the focus the body does, and in its text is every name.
      if (active === null || active === document.body) return ''
      const labels =
        active instanceof HTMLInputElement || active instanceof HTMLSelectElement
          ? active.labels?.[0]?.textContent
          : ''
      return `${labels ?? ''}${active.getAttribute('aria-label') ?? active.textContent}`
    })
    if (name.test(at)) return
    names.push(at)
  }
  throw new Error(`${name} is not reached by Tab: ${names.join(' | ')}`)
}

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')

interface Violation {
  readonly id: string
  readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[]
}

/**
 * What would bar somebody from using the page, by the rules of WCAG 2.2 AA and good practice.
 *
 * @param off - rules that are not asked
 * @param only - rules that are asked alone, where they are given
 */
export const barriers = async (
  page: Page,
  off: readonly string[] = [],
  only: readonly string[] = [],
): Promise<readonly { readonly id: string; readonly where: readonly string[] }[]> => {
  // The policy keeps scripts out; a test may still evaluate.
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(axe)
  return page.evaluate(
    async ([without, alone]) => {
      const { run } = (
        globalThis as unknown as {
          readonly axe: {
            run: (options: object) => Promise<{ violations: readonly Violation[] }>
          }
        }
      ).axe
      const { violations } = await run({
        runOnly:
          alone.length > 0
            ? alone
            : ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
        rules: Object.fromEntries(without.map((id) => [id, { enabled: false }])),
      })
      return violations.map(({ id, nodes }) => ({
        id,
        where: nodes.map(
          ({ html, failureSummary = '' }) => `${html.slice(0, 160)} ${failureSummary}`,
        ),
      }))
    },
    [off, only] as const,
  )
}

/** Rules of axe that look at colours. */
const ofColours = ['color-contrast', 'link-in-text-block']

/** What bars somebody by day, and by night. @param off - rules that are not asked */
export const byDayAndNight = async (
  page: Page,
  off: readonly string[] = [],
): Promise<{ readonly day: unknown; readonly night: unknown }> => {
  await page.emulateMedia({ colorScheme: 'light' })
  const day = await barriers(page, off)
  await page.emulateMedia({ colorScheme: 'dark' })
  await page.locator('html[data-ground=night]').waitFor()
  // All but the colours is as by day.
  return { day, night: await barriers(page, off, ofColours) }
}

/** The same, and how much of the page is not shown where it is narrow. */
export const onEveryGround = async (
  page: Page,
  off: readonly string[] = [],
): Promise<{ readonly day: unknown; readonly night: unknown; readonly hidden_px: number }> => ({
  ...(await byDayAndNight(page, off)),
  hidden_px: await hiddenOnPhone(page),
})

/** How much of the page is not shown at the width of WCAG 2.2's success criterion 1.4.10 (Reflow), px. */
export const hiddenOnPhone = async (page: Page): Promise<number> => {
  await page.setViewportSize({ width: 320, height: 740 })
  return page.evaluate(async () => {
    let hidden = 0
    // What is drawn to its width is drawn anew: at once, or a little later where the machine is at work.
    for (let frame = 0; frame < 3 || (hidden > 0 && frame < 60); frame++) {
      // oxlint-disable-next-line no-await-in-loop -- one frame after the other
      await new Promise(requestAnimationFrame)
      hidden = document.documentElement.scrollWidth - document.documentElement.clientWidth
    }
    return hidden
  })
}

/** Of a page that is for all. */
export const forAll = { day: [], night: [], hidden_px: 0 } as const
