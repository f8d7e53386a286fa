import type { Page } from 'playwright-core'

/** Times of one large print in the browser, ms. */
export interface LargePrint {
  /** From the file to the end of its reading, its hash worked out beside. */
  readonly reading: number
  /** From there to the frame that shows the picture. */
  readonly picture: number
  /** From the file to the frame that shows the verdict. */
  readonly verdict: number
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

/** Runs in the page: watches it read, draw and answer. */
const watch = (): void => {
  const at = { began: 0, read: 0, picture: 0, verdict: 0 }
  // A frame is on the screen when the next one begins. Stands here because all of this runs in the page.
  // oxlint-disable-next-line unicorn/consistent-function-scoping
  const whenSeen = (seen: () => void): void => {
    requestAnimationFrame(() => requestAnimationFrame(seen))
  }
  const look = new MutationObserver(() => {
    const now = performance.now()
    const isReading = document.querySelector('[role=progressbar]') !== null
    if (at.began === 0 && isReading) at.began = now
    if (at.began === 0 || isReading) return
    if (at.read === 0) at.read = now
    if (at.picture === 0 && document.querySelector('main figure svg') !== null) {
      at.picture = now
      whenSeen(() => (at.picture = performance.now()))
    }
    if (document.querySelector('section[aria-label="The answer"]') === null) return
    look.disconnect()
    whenSeen(() => {
      const { began, read, picture } = at
      const verdict = performance.now() - began
      Object.assign(globalThis, {
        largePrint: { reading: read - began, picture: picture - read, verdict },
      })
    })
  })
  look.observe(document.body, { childList: true, subtree: true })
}
