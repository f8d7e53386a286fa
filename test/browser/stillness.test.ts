import type { Page } from 'playwright-core'
import { describe, expect, test } from 'vitest'
import { openPage, stageOf } from './in-browser.ts'

// What can be pressed stays where it is while a sheet comes: a press that moves away under a finger is lost.

const stage = stageOf({ served: 'bench' })

/** Answers come one after another, as from a slow server. */
const oneByOne = async (page: Page): Promise<void> => {
  let turn: Promise<unknown> = Promise.resolve()
  await page.route('**/api/**', (route) => {
    if (route.request().url().endsWith('/changes')) return route.continue()
    turn = turn.then(() => page.waitForTimeout(120)).then(() => route.continue())
    return turn.catch(() => undefined)
  })
}

/** Keeps where each thing to press stood in every frame, and tells of those that moved. */
const watchPresses = (page: Page): Promise<unknown> =>
  page.addInitScript(() => {
    const stood = new Map<Element, number>()
    const moved: string[] = []
    Object.assign(globalThis, { moved })
    const look = (): void => {
      for (const press of document.querySelectorAll('main :is(a, button, input, select)')) {
        const at = press.getBoundingClientRect().top + scrollY
        const before = stood.get(press)
        if (before !== undefined && Math.abs(at - before) > 2) {
          moved.push(`${press.textContent || press.outerHTML.slice(0, 60)}: ${before} to ${at}`)
        }
        stood.set(press, at)
      }
      requestAnimationFrame(look)
    }
    requestAnimationFrame(look)
  })

const paths = [
  ['/shelf', '12 reels'],
  ['/reel/QX5BN', 'As a table'],
  ['/bench', 'Other bench work'],
  ['/bench?reel=REYRT', 'Put the reel on the scale'],
  ['/bench?measure=carrier', 'Keep it'],
  ['/bench?measure=cut', 'Keep it'],
  ['/bench?measure=arrivals', 'Keep it'],
  ['/set-up/printers', 'Feed factor'],
  ['/set-up/makes', 'Tare'],
  ['/set-up/priors', 'as usual'],
] as const

describe.each([
  ['phone', { width: 390, height: 844 }],
  ['desk', { width: 1280, height: 900 }],
] as const)('at a %s', (_, viewport) => {
  // Most of the time goes with waiting.
  test.concurrent.for(paths)('%s comes without moving a press', async ([path, last], here) => {
    const { page } = await openPage(
      stage.browser,
      stage.served.origin + path,
      { viewport },
      async (one) => {
        await watchPresses(one)
        await oneByOne(one)
      },
    )
    await page.getByText(last).first().waitFor()
    // What comes late comes within some answers' time.
    await page.waitForTimeout(600)
    const moved = await page.evaluate(
      () => (globalThis as unknown as { readonly moved: readonly string[] }).moved,
    )
    here.expect(moved).toEqual([])
    await page.close()
  })
})

test('a press that moves would be found', async () => {
  const { page } = await openPage(stage.browser, `${stage.served.origin}/shelf`, {}, watchPresses)
  await page.getByText('12 reels').first().waitFor()
  await page.evaluate(() => document.querySelector('main')?.prepend('much\n'.repeat(900)))
  await expect
    .poll(() => page.evaluate(() => (globalThis as unknown as { moved: string[] }).moved.length))
    .toBeGreaterThan(0)
  await page.close()
})
