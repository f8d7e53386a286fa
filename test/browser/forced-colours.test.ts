import { join } from 'node:path'
import type { Locator, Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { barriers, giveFile, ofAnyMaterial, openPage, stageOf } from './in-browser.ts'

// Where the system's few colours are forced, words and lines say it all, and filament keeps its colour.

const stage = stageOf({ served: 'bench' })
const forced = {
  colorScheme: 'dark',
  forcedColors: 'active',
  reducedMotion: 'no-preference',
} as const

const open = async (path: string): Promise<Page> => {
  const { page } = await openPage(stage.browser, stage.served.origin + path, forced)
  return page
}

/** A computed property of an element. */
const look = (on: Locator, property: string): Promise<string> =>
  on.evaluate((element, name) => getComputedStyle(element).getPropertyValue(name), property)

const swatchOf = (page: Page, reel: string): Locator =>
  page.getByRole('button', { name: reel }).locator('svg rect').first()

test('the browser forces them', async () => {
  const page = await open('/shelf')
  expect(await page.evaluate(() => matchMedia('(forced-colors: active)').matches)).toBe(true)
  const ground = await look(page.locator('html'), 'background-color')
  const plain = await openPage(stage.browser, `${stage.served.origin}/shelf`, {
    colorScheme: 'dark',
  })
  expect(await look(plain.page.locator('html'), 'background-color')).not.toBe(ground)
  await plain.page.close()
  await page.close()
})

test('verdicts differ in shape and word, and their colour is that of the text', async () => {
  const page = await open('/')
  await giveFile(page, join(stage.served.prints, 'tackle-box.gcode'))
  await page.getByRole('region', { name: 'The answer' }).waitFor()
  await ofAnyMaterial(page)
  await page.getByRole('button', { name: 'QFMJY' }).waitFor()
  const ink = await look(page.getByRole('heading', { level: 1 }), 'color')
  const shapes = await Promise.all(
    [
      ['QX5BN', 'enough'],
      ['REYRT', 'close'],
      ['QFMJY', 'short'],
    ].map(async ([reel = '', word]) => {
      const strip = page.getByRole('button', { name: reel }).first()
      expect(await strip.textContent()).toContain(word)
      const ring = strip.locator('svg path').first()
      expect(await look(ring, 'stroke')).toBe(ink)
      return ring.getAttribute('d')
    }),
  )
  expect(new Set(shapes).size).toBe(3)
  // The filament's own colour, with a line about it in that of the text.
  expect(await swatchOf(page, 'HA83A').getAttribute('fill')).not.toBeNull()
  expect(await look(swatchOf(page, 'HA83A'), 'fill')).not.toBe(
    await look(swatchOf(page, 'QX5BN'), 'fill'),
  )
  expect(await look(swatchOf(page, 'HA83A'), 'stroke')).toBe(ink)
  expect(await barriers(page)).toEqual([])
  await page.close()
})

test('what is chosen, and what has the focus, is told from the rest', async () => {
  const page = await open('/shelf')
  await page.getByText('12 reels').first().waitFor()
  const ground = await look(page.locator('html'), 'background-color')
  const nav = page.getByRole('navigation')
  const edge = (name: string): Promise<string> =>
    look(nav.getByRole('link', { name }), 'border-top-color')
  const width = (name: string): Promise<string> =>
    look(nav.getByRole('link', { name }), 'border-top-width')
  expect([await edge('Shelf'), await width('Shelf')]).not.toEqual([
    await edge('Bench'),
    await width('Bench'),
  ])
  await page.keyboard.press('Tab')
  const focused = page.locator(':focus')
  expect(await look(focused, 'outline-style')).not.toBe('none')
  expect(await look(focused, 'outline-color')).not.toBe(ground)
  expect(await barriers(page)).toEqual([])
  await page.close()
})

test.each([
  ['/slate', 'Put a print on the slate'],
  ['/bench?reel=REYRT', 'Keep it'],
  ['/set-up/scales', 'Add a scale'],
])('%s can be read', async (path, press) => {
  const page = await open(path)
  const button = page.getByRole('button', { name: press }).or(page.getByText(press)).first()
  await button.waitFor()
  const ground = await look(page.locator('html'), 'background-color')
  expect(await look(button, 'color')).not.toBe(ground)
  expect(await look(button, 'border-top-color')).not.toBe(ground)
  expect(await barriers(page)).toEqual([])
  await page.close()
})
