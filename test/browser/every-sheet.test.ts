import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { inventedLedger } from '../app/invented-ledger.ts'
import type { ServedApp } from '../app/serve-app.ts'
import { serveLocked } from '../app/serve-locked.ts'
import { type Screen, screens, settle } from '../app/sheets-shown.ts'
import { forAll, onEveryGround, openPage, stageOf } from './in-browser.ts'

// What has to hold of every sheet that is drawn for docs/screens: it bars nobody by day, by night and on a phone; the keys
// reach whatever can be pressed; who chose ounces reads ounces, in what the app words itself and in what the server says.

const stage = stageOf({ bench: 'bench', empty: 'empty', '300': inventedLedger(300) })
let locked: ServedApp
beforeAll(async () => {
  locked = await serveLocked()
}, 60_000)
afterAll(() => locked?.end())

const serverOf = (on: Screen['on'] = 'bench'): Promise<ServedApp> | ServedApp => {
  if (on === 'own') return stage.serve('bench')
  return on === 'locked' ? locked : stage[on]
}

/** Grams but where ounces or pounds stand beside them, as in a hint of how a figure may be typed. */
const inGrams = /.{0,40}\d\s(?:g|grams)(?![\w/])(?! or [\d.]+ (?:oz|lb)).{0,20}/g

/** All that can be read, or is read aloud, of a page. */
const wordsOf = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const said = ['aria-label', 'title', 'alt', 'aria-description'].flatMap((name) =>
      [...document.querySelectorAll(`[${name}]`)].map((one) => one.getAttribute(name) ?? ''),
    )
    const texts = [...document.querySelectorAll('body *:not(script, style)')].map(
      ({ childNodes }) =>
        [...childNodes].flatMap((one) => (one.nodeType === 3 ? [one.textContent] : [])).join(''),
    )
    return [...said, ...texts].join('\n')
  })

/** What can be pressed or typed in and has not had the focus, of the page as it is. */
const notReached = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => {
    const { reached } = globalThis as unknown as { readonly reached: WeakSet<Element> }
    const things = document.querySelectorAll<HTMLElement>(
      'a[href], button:enabled, input:enabled, select:enabled, textarea:enabled, summary',
    )
    const isReached = (one: HTMLElement): boolean =>
      reached.has(one) ||
      // Of radio buttons one is come by; arrows go on from it.
      (one instanceof HTMLInputElement &&
        one.type === 'radio' &&
        [...document.querySelectorAll(`input[name="${one.name}"]`)].some((each) =>
          reached.has(each),
        ))
    return [...things]
      .filter(
        (one) =>
          !isReached(one) &&
          one.checkVisibility({ visibilityProperty: true }) &&
          one.closest('[aria-hidden=true], [inert]') === null &&
          // The list of a field is opened by the arrows in the field, and a file is chosen by the press beside its input.
          !one.matches('button[aria-haspopup=listbox][tabindex="-1"], input[type=file]'),
      )
      .map(({ outerHTML }) => outerHTML.slice(0, 160))
  })

/** What can be pressed or typed in and is not come by, however often Tab is pressed. */
const missedByKeys = async (page: Page): Promise<readonly string[]> => {
  await page.evaluate(() => {
    const reached = new WeakSet<Element>()
    Object.assign(globalThis, { reached })
    document.addEventListener('focusin', ({ target }) => {
      if (target instanceof Element) reached.add(target)
    })
    if (document.activeElement instanceof HTMLElement) document.activeElement.blur()
  })
  // More often than there are things to come by: what holds the keys fast is found.
  const many = await page.locator('a, button, input, select, textarea, summary, [tabindex]').count()
  let missed: readonly string[] = []
  for (let presses = 0; presses < 1.5 * many + 30; presses += 10) {
    // oxlint-disable-next-line no-await-in-loop -- each press is told before the next
    await Promise.all(Array.from({ length: 10 }, () => page.keyboard.press('Tab')))
    // oxlint-disable-next-line no-await-in-loop -- what is left to be come by
    missed = await notReached(page)
    if (missed.length === 0) break
  }
  return missed
}

test.each(screens)('$name', async ({ name, path, act, on }: Screen) => {
  const server = await serverOf(on)
  const isKept = name === 'offline'
  const { page, faults } = await openPage(
    stage.browser,
    server.origin + path,
    { locale: 'en-GB', serviceWorkers: isKept ? 'allow' : 'block' },
    async () => {},
    // What the server refuses, or that it is gone, is what some sheets show.
    /status of 4|Failed to load|ERR_/,
  )
  page.setDefaultTimeout(40_000)
  await act?.(page, server)
  await settle(page)
  expect(await missedByKeys(page)).toEqual([])
  const ounces = page
    .getByRole('radiogroup', { name: 'Masses in' })
    .getByRole('radio', { name: 'ounces', exact: true })
  // A table that is taken over is shown as it is in its file.
  if (name !== 'set-up-table' && (await ounces.count()) > 0) {
    await ounces.check({ force: true })
    await expect.poll(async () => (await wordsOf(page)).match(inGrams)).toBeNull()
  }
  expect(await onEveryGround(page)).toEqual(forAll)
  expect(faults).toEqual([])
  await page.close()
})
