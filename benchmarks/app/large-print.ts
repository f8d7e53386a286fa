import { createReadStream } from 'node:fs'
import type { Page } from 'playwright-core'
import { PrintFileReader } from '../../src/print/index.ts'

/** Times of one large print in the browser, ms. */
export interface LargePrint {
  /** From the file to the end of its reading, its hash worked out beside. */
  readonly reading: number
  /** From there to the frame that shows the picture. */
  readonly picture: number
}

/** Gives a page, on its Check sheet, the file; the page has no print yet. */
export const readInPage = async (page: Page, path: string): Promise<LargePrint> => {
  await page.evaluate(watch)
  const chooser = page.waitForEvent('filechooser')
  await page.getByRole('button', { name: 'Choose a print file' }).click()
  await (await chooser).setFiles(path)
  await page.waitForFunction(() => 'largePrint' in globalThis, undefined, { timeout: 120_000 })
  return page.evaluate(
    () => (globalThis as unknown as { readonly largePrint: LargePrint }).largePrint,
  )
}

/** Runs in the page: watches it read and draw. */
const watch = (): void => {
  let began = 0
  let read = 0
  const look = new MutationObserver(() => {
    const now = performance.now()
    const isReading = document.querySelector('[role=progressbar]') !== null
    if (began === 0 && isReading) began = now
    if (began > 0 && read === 0 && !isReading) read = now
    if (document.querySelector('main figure svg') === null) return
    look.disconnect()
    // A frame is on the screen when the next one begins.
    requestAnimationFrame(() =>
      requestAnimationFrame(() => {
        const picture = performance.now() - read
        Object.assign(globalThis, { largePrint: { reading: read - began, picture } })
      }),
    )
  })
  look.observe(document.body, { childList: true, subtree: true })
}

/** The same reading in this process, silhouette and all, ms. */
export const readInNode = async (path: string): Promise<number> => {
  const from = performance.now()
  const reader = new PrintFileReader({ silhouette: true })
  for await (const chunk of createReadStream(path, { highWaterMark: 1 << 20 })) {
    reader.push(chunk as Uint8Array)
  }
  const outcome = reader.finish()
  if (!outcome.ok) throw new Error(outcome.refusal.message)
  return performance.now() - from
}
