import type { Page } from 'playwright-core'

const words = 'petg coral tessamund long'
/** From the press into the field to the first key, and from key to key, ms: as a person types. */
const pause = 120

/**
 * Types into the shelf's filter, and takes it out again.
 *
 * @returns for each key the time from its event to the frame that shows what it did, ms
 */
export const typeInFilter = async (page: Page): Promise<readonly number[]> => {
  await page.evaluate(watch)
  await page.getByRole('textbox').first().click()
  await page.waitForTimeout(pause)
  for (const key of [...Array.from(words), ...Array<string>(words.length).fill('Backspace')]) {
    // One key after another, as a person types.
    // oxlint-disable-next-line no-await-in-loop -- one key after the other
    await page.keyboard.press(key === ' ' ? 'Space' : key)
    // oxlint-disable-next-line no-await-in-loop -- one key after the other
    await page.waitForTimeout(pause)
  }
  return page.evaluate(
    () => (globalThis as unknown as { readonly keyTimes: readonly number[] }).keyTimes,
  )
}

/** Runs in the page: a channel's message comes after the frame that an event's work is shown in. */
const watch = (): void => {
  const keyTimes: number[] = []
  Object.assign(globalThis, { keyTimes })
  addEventListener(
    'input',
    (event) => {
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel()
        port1.addEventListener('message', () => keyTimes.push(performance.now() - event.timeStamp))
        port1.start()
        port2.postMessage(null)
      })
    },
    true,
  )
}
