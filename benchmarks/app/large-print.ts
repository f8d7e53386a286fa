import type { Page } from 'playwright-core'

/** Times of one large print in the browser, ms. */
export interface LargePrint {
  /** From the file, handed to the worker, to all that it reads of it. */
  readonly reading: number
  /** From there to its hash. */
  readonly hash: number
  /** From the end of the reading to the frame that shows the picture. */
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
  const at = { began: 0, read: 0, hashed: 0, picture: 0 }
  // A frame is on the screen when the next one begins. Stands here because all of this runs in the page.
  // oxlint-disable-next-line unicorn/consistent-function-scoping
  const whenSeen = (seen: () => void): void => {
    requestAnimationFrame(() => requestAnimationFrame(seen))
  }
  const heard = ({ data: { kind } }: MessageEvent<{ readonly kind: string }>): void => {
    if (kind === 'read') at.read = performance.now()
    if (kind === 'hashed') at.hashed = performance.now()
  }
  // oxlint-disable-next-line typescript/unbound-method -- called on the worker it was called on
  Worker.prototype.postMessage = new Proxy(Worker.prototype.postMessage, {
    apply: (post, worker: Worker, said) => {
      worker.addEventListener('message', heard)
      if (at.began === 0) at.began = performance.now()
      return Reflect.apply(post, worker, said)
    },
  })
  const look = new MutationObserver(() => {
    if (at.picture === 0 && document.querySelector('main figure svg') !== null) {
      at.picture = performance.now()
      whenSeen(() => (at.picture = performance.now()))
    }
    if (document.querySelector('section[aria-label="The answer"]') === null) return
    look.disconnect()
    whenSeen(() => {
      const { began, read, hashed, picture } = at
      Object.assign(globalThis, {
        largePrint: {
          reading: read - began,
          hash: hashed - read,
          picture: picture - read,
          verdict: performance.now() - began,
        },
      })
    })
  })
  look.observe(document.body, { childList: true, subtree: true })
}
