import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { type Screen, screens, settle } from '../app/sheets-shown.ts'
import { openPage, stageOf } from './in-browser.ts'

// Who chose ounces reads ounces, in what the app words itself and in what the server says.

const stage = stageOf({ bench: 'bench' })

const shown = new Set([
  'check-enough',
  'check-close',
  'check-rests',
  'check-surprise',
  'check-finished',
  'shelf-list',
  'slate-why',
  'reel',
  'reel-put-right',
  'bench-surprise',
  'bench-carrier',
  'set-up-makes',
  'set-up-priors',
])

/** Grams but where ounces or pounds stand beside them, as in a hint of how a figure may be typed. */
const inGrams = /.{0,40}\d\s(?:g|grams)(?![\w/])(?! or [\d.]+ (?:oz|lb)).{0,20}/g

/** All that can be read, or is read aloud, of a page. */
const wordsOf = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const said = ['aria-label', 'title', 'alt', 'aria-description'].flatMap((name) =>
      [...document.querySelectorAll(`[${name}]`)].map((one) => one.getAttribute(name) ?? ''),
    )
    const texts = [...document.querySelectorAll('body *')].flatMap((one) =>
      one.matches('script, style')
        ? []
        : [
            [...one.childNodes]
              .flatMap((node) => (node.nodeType === 3 ? [node.textContent] : []))
              .join(''),
          ],
    )
    return [...said, ...texts.flat()].join('\n')
  })

test.each(screens.filter(({ name }) => shown.has(name)))(
  '$name',
  async ({ path, act, on }: Screen) => {
    const server = on === 'own' ? await stage.serve('bench') : stage.bench
    const { page } = await openPage(
      stage.browser,
      server.origin + path,
      { locale: 'en-GB' },
      (fresh) => fresh.addInitScript(() => localStorage.setItem('reelreckon-unit', 'oz')),
      /status of 4/,
    )
    await act?.(page, server)
    await settle(page)
    const words = await wordsOf(page)
    expect(words).toMatch(/\d\soz/)
    expect(words.match(inGrams)).toBeNull()
    await page.close()
  },
)
