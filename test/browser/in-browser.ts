import { type Browser, chromium, type Page } from 'playwright-core'
import { ensureChromium } from '../../scripts/find-chromium.ts'

/** The system's Chromium, asking nobody else for anything. */
export const launch = (...more: readonly string[]): Promise<Browser> =>
  chromium.launch({
    executablePath: ensureChromium(),
    args: ['--no-sandbox', '--disable-background-networking', ...more],
  })

/** A page, and what went wrong in it. */
export interface Opened {
  readonly page: Page
  readonly faults: readonly string[]
}

/** A page at an address, in a context of its own. */
export const openPage = async (
  browser: Browser,
  address: string,
  more: Parameters<Browser['newPage']>[0] = {},
): Promise<Opened> => {
  const page = await browser.newPage({ reducedMotion: 'reduce', ...more })
  const faults: string[] = []
  page.on('pageerror', ({ message }) => faults.push(message))
  page.on('console', (message) => {
    if (message.type() === 'error') faults.push(message.text())
  })
  await page.goto(address)
  return { page, faults }
}

/** Chooses a file as a person does. */
export const giveFile = async (page: Page, file: string): Promise<void> => {
  const chooser = page.waitForEvent('filechooser')
  await page.getByRole('button', { name: 'Choose a print file' }).click()
  await (await chooser).setFiles(file)
}
