import type { Page } from 'playwright-core'

/** Goes on once the page's browser keeps the app, so that it opens without its server. */
export const keptApp = (page: Page): Promise<void> =>
  page.evaluate(async () => {
    const { serviceWorker } = navigator
    await serviceWorker.ready
    // Its first work is to take this page over, once it has kept the app.
    if (serviceWorker.controller !== null) return
    await new Promise((settle) => {
      serviceWorker.addEventListener('controllerchange', settle, { once: true })
    })
  })
