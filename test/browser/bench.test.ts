import type { Browser, Page } from 'playwright-core'
import { describe, expect, test } from 'vitest'
import type { RecordedJson, ReelListJson, ReelShowJson } from '../../src/contract/index.ts'
import { forAll, type Opened, onEveryGround, openPage, stageOf, tabTo } from './in-browser.ts'

// The sheet Bench in a real browser, on the built server and a ledger of its own.

const stage = stageOf({ served: 'bench' })

const phone = { viewport: { width: 390, height: 844 }, isMobile: true, hasTouch: true }

/** A page of the app; what goes wrong in it is kept in `faults`. */
const open = async (
  path: string,
  more: Parameters<Browser['newPage']>[0] = {},
  before: (page: Page) => Promise<unknown> = async () => {},
): Promise<Opened> => {
  const opened = await openPage(stage.browser, stage.served.origin + path, more, before)
  opened.page.setDefaultTimeout(10_000)
  return opened
}

const get = async <T>(path: string): Promise<T> =>
  (await (await fetch(`${stage.served.origin}/api${path}`)).json()) as T
/** Of the kitchen scale, which the bench takes first. */
const scaleOf = async (): Promise<string> => {
  const { rows } = await get<{ rows: readonly { id: string; name: string }[] }>('/rows/scale')
  return rows.find(({ name }) => name === 'kitchen scale')?.id ?? ''
}
const expectedOf = async (reel: string): Promise<number> => {
  const body = { reel, weighing: { reading_g: 0, scale: await scaleOf() }, test: true }
  const response = await fetch(`${stage.served.origin}/api/weighings`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  })
  const { surprise } = (await response.json()) as RecordedJson
  return surprise?.expected_g.value ?? Number.NaN
}
const factsOf = async (reel: string, kind: string): Promise<ReelShowJson['facts']> =>
  (await get<ReelShowJson>(`/reels/${reel}`)).facts.filter((fact) => fact.kind === kind)

const tareOf = async (reel = ''): Promise<number> =>
  (await get<ReelShowJson>(`/reels/${reel}`)).tare_g?.value ?? Number.NaN

const placed = async (reel: string): Promise<unknown> =>
  (await get<ReelShowJson>(`/reels/${reel}`)).reel.place

/** Waits until the band of what is expected is drawn. */
const isExpecting = (page: Page): Promise<void> =>
  page
    .locator('svg text', { hasText: /^expected \d/ })
    .first()
    .waitFor()
const isKept = (page: Page): Promise<void> =>
  page.getByRole('heading', { name: 'It is written down' }).waitFor()
const keep = (page: Page): Promise<void> => page.getByRole('button', { name: 'Keep it' }).click()

describe('a reel on the scale', () => {
  test('in three touches: the reel, the figure, keep', async () => {
    const { page, faults } = await open('/bench', phone, (one) =>
      one.addInitScript(() => {
        addEventListener(
          'pointerdown',
          () => {
            const counted = globalThis as unknown as { touches?: number }
            counted.touches = (counted.touches ?? 0) + 1
          },
          true,
        )
      }),
    )
    const before = await factsOf('REYRT', 'weighed')
    const figure = String(Math.round(await expectedOf('REYRT')))
    await page.getByRole('button', { name: /^REYRT/ }).tap()
    await isExpecting(page)
    for (const digit of figure) {
      // oxlint-disable-next-line no-await-in-loop -- one key after the other
      await page.getByRole('button', { name: digit, exact: true }).tap()
    }
    await page.getByText(/^It agrees:/).waitFor()
    await page.getByRole('button', { name: 'Keep it' }).tap()
    await isKept(page)
    const touches = await page.evaluate(
      () => (globalThis as unknown as { touches: number }).touches,
    )
    expect(touches).toBe(1 + figure.length + 1)
    const change = page.getByRole('table', { name: /REYRT/ })
    expect(await change.getByRole('row', { name: /^net/ }).textContent()).toMatch(/\sg→ .*\sg$/)
    expect(await factsOf('REYRT', 'weighed')).toHaveLength(before.length + 1)
    expect(faults).toEqual([])
    await page.close()
  })

  test('a second press of Keep counts once', async () => {
    const { page } = await open('/bench?reel=FFP4R')
    const before = await factsOf('FFP4R', 'weighed')
    const figure = Math.round(await expectedOf('FFP4R'))
    await isExpecting(page)
    await page.getByLabel('The scale shows').fill(String(figure))
    await page.getByRole('button', { name: 'Keep it' }).dblclick()
    await isKept(page)
    expect(await factsOf('FFP4R', 'weighed')).toHaveLength(before.length + 1)
    await page.close()
  })

  test('an answer that was not heard is asked for again, and counted once', async () => {
    const { page } = await open('/bench?reel=44SGD')
    const before = await factsOf('44SGD', 'weighed')
    const figure = Math.round(await expectedOf('44SGD'))
    await isExpecting(page)
    let cuts = 0
    await page.route('**/api/weighings', async (route) => {
      if (!(route.request().postData() ?? '').includes('"id"') || cuts > 0) return route.continue()
      cuts++
      await route.fetch()
      return route.abort()
    })
    await page.getByLabel('The scale shows').fill(String(figure))
    await keep(page)
    await page.getByText('It waits in this browser').waitFor()
    expect(await factsOf('44SGD', 'weighed')).toHaveLength(before.length + 1)
    // Sent again by itself, it is known by its id.
    await page.getByText('waits here for the server').waitFor({ state: 'detached' })
    expect(cuts).toBe(1)
    expect(await factsOf('44SGD', 'weighed')).toHaveLength(before.length + 1)
    await page.close()
  })

  test('what surprises is told, and put right by the press of its cause', async () => {
    const { page, faults } = await open('/bench?reel=REYRT')
    const [mine, others] = [await factsOf('REYRT', 'weighed'), await factsOf('QX5BN', 'weighed')]
    const figure = Math.round(await expectedOf('QX5BN'))
    await isExpecting(page)
    await page.getByLabel('The scale shows').fill(String(figure))
    await page.getByText(/^It does not agree: .* over what was expected/).waitFor()
    await keep(page)
    const surprise = page.getByRole('alert')
    expect(await surprise.textContent()).toContain('standard deviations off')
    expect(await factsOf('REYRT', 'weighed')).toHaveLength(mine.length)
    await surprise.getByRole('button', { name: 'It was reel QX5BN' }).click()
    await isKept(page)
    expect(await factsOf('REYRT', 'weighed')).toHaveLength(mine.length)
    expect(await factsOf('QX5BN', 'weighed')).toHaveLength(others.length + 1)
    expect(faults).toEqual([])
    await page.close()
  })

  test('after a cause was pressed, taking it writes down what the cause said', async () => {
    const { page } = await open('/bench?reel=QFMJY')
    const [mine, others] = [await factsOf('QFMJY', 'weighed'), await factsOf('REYRT', 'weighed')]
    const figure = Math.round(await expectedOf('REYRT'))
    await isExpecting(page)
    await page.getByLabel('The scale shows').fill(String(figure))
    await keep(page)
    const alert = page.getByRole('alert')
    // The shelf moves on before it is pressed: what was likely then surprises now.
    await page.route('**/api/weighings', async (route) => {
      const told = JSON.parse(route.request().postData() ?? '{}')
      if (told.reel !== 'REYRT' || told.accept === true) return route.continue()
      const off = { ...told, weighing: { ...told.weighing, reading_g: figure + 40 } }
      return route.continue({ postData: JSON.stringify(off) })
    })
    await alert.getByRole('button', { name: 'It was reel REYRT' }).click()
    await alert.getByText('The weighing of reel REYRT does not agree').waitFor()
    await alert.getByText(`The scale shows ${figure + 40} g`).waitFor()
    await alert.getByRole('button', { name: 'Take it as it is' }).click()
    await isKept(page)
    expect(await factsOf('QFMJY', 'weighed')).toHaveLength(mine.length)
    expect(await factsOf('REYRT', 'weighed')).toHaveLength(others.length + 1)
    await page.close()
  })

  test('that it agrees is said of the figure that stands there only', async () => {
    const { page } = await open('/bench?reel=HA83A')
    const figure = Math.round(await expectedOf('HA83A'))
    await isExpecting(page)
    const field = page.getByLabel('The scale shows')
    await field.fill(String(figure))
    await page.getByText(/^It agrees:/).waitFor()
    const [asked, answered] = [Promise.withResolvers<void>(), Promise.withResolvers<void>()]
    await page.route('**/api/weighings', async (route) => {
      asked.resolve()
      await answered.promise
      return route.continue()
    })
    await field.fill(String(figure + 300))
    await asked.promise
    expect(await page.getByText(/^It agrees:/).count()).toBe(0)
    answered.resolve()
    await page.getByText(/^It does not agree:/).waitFor()
    await page.close()
  })

  test('or taken as it is, or left out', async () => {
    const { page } = await open('/bench?reel=GQWGD')
    const before = await factsOf('GQWGD', 'weighed')
    await isExpecting(page)
    const odd = String(Math.round(await expectedOf('GQWGD')) + 61)
    await page.getByLabel('The scale shows').fill(odd)
    await keep(page)
    await page.getByRole('button', { name: 'Leave it out' }).click()
    await page.getByLabel('The scale shows').waitFor()
    expect(await page.getByLabel('The scale shows').inputValue()).toBe('')
    expect(await factsOf('GQWGD', 'weighed')).toHaveLength(before.length)
    await page.keyboard.type(odd)
    await page.keyboard.press('Enter')
    await page.getByRole('button', { name: 'Take it as it is' }).click()
    await isKept(page)
    expect(await factsOf('GQWGD', 'weighed')).toHaveLength(before.length + 1)
    await page.close()
  })

  test('what stands beside it is off the figure', async () => {
    const { page, faults } = await open('/bench?reel=HA83A')
    const figure = Math.round(await expectedOf('HA83A'))
    await isExpecting(page)
    await page.getByRole('button', { name: 'Something else stands on it' }).click()
    await page.getByLabel('What else stands on the scale').fill('38 g')
    await page
      .locator('svg text', { hasText: `expected ${figure + 38}` })
      .first()
      .waitFor()
    await page.getByLabel('The scale shows').fill(String(figure + 38))
    await page.getByText(/^It agrees:/).waitFor()
    expect(await onEveryGround(page)).toEqual(forAll)
    // What can not be read is not left out in silence.
    const before = await factsOf('HA83A', 'weighed')
    await page.getByLabel('What else stands on the scale').fill('38 stone')
    await keep(page)
    await page.getByText(/"stone" is not a unit of mass/).waitFor()
    expect(await factsOf('HA83A', 'weighed')).toHaveLength(before.length)
    await page.getByLabel('What else stands on the scale').fill('38 g')
    await keep(page)
    await isKept(page)
    const [last] = (await factsOf('HA83A', 'weighed')).toReversed()
    expect(last?.what).toContain('of which 38.0')
    expect(faults).toEqual([])
    await page.close()
  })

  test('a comma is as good as a point, in ounces, too', async () => {
    const { page } = await open('/bench?reel=HA83A')
    const ounces = (await expectedOf('HA83A')) / 28.349523125
    await isExpecting(page)
    await page.getByText('ounces', { exact: true }).first().click()
    await page.getByLabel('The scale shows').fill(ounces.toFixed(1).replace('.', ','))
    await page.getByText(/^It agrees:/).waitFor()
    await page.keyboard.press('Enter')
    await isKept(page)
    await page.close()
  })

  test('a scale that types is heard wherever the focus is', async () => {
    const { page } = await open('/bench?reel=QRXTF')
    await isExpecting(page)
    const figure = (await expectedOf('QRXTF')).toFixed(1)
    await page.evaluate(() => (document.activeElement as HTMLElement).blur())
    await page.keyboard.type(`${figure}\n`, { delay: 0 })
    await isKept(page)
    const [last] = (await factsOf('QRXTF', 'weighed')).toReversed()
    expect(last?.what).toContain(String(Number(figure)))
    await page.close()
  })

  test('a reel that is not there is told of', async () => {
    const { page } = await open('/bench?reel=REYRX')
    await page.getByRole('alert').filter({ hasText: 'REYRX' }).waitFor()
    await page.getByRole('button', { name: 'Another reel' }).click()
    await page.getByLabel(/^Which reel/).fill('no such words')
    await page.keyboard.press('Enter')
    await page.getByText('No reel has "no such words"').first().waitFor()
    await page.close()
  })

  test('what is no figure is refused beside the field', async () => {
    const { page } = await open('/bench?reel=QRXTF')
    await isExpecting(page)
    await keep(page)
    await page.getByRole('alert').filter({ hasText: 'Type what the scale shows.' }).waitFor()
    await page.getByLabel('The scale shows').fill('heavy')
    await page.keyboard.press('Enter')
    await page.getByRole('alert').filter({ hasText: 'heavy' }).waitFor()
    await page.close()
  })
})

describe('a scale on a serial port', () => {
  const lines = 'US,+00100.00  g\r\nST,+00421.50  g\r\n'
  test('is read line by line, and only what rests is taken', async () => {
    const { page, faults } = await open('/bench?reel=REYRT', {}, (one) =>
      one.addInitScript((said: string) => {
        const readable = new ReadableStream({
          start: (control) => {
            const bytes = new TextEncoder().encode(said)
            // In pieces that end anywhere.
            for (let at = 0; at < bytes.length; at += 5) control.enqueue(bytes.slice(at, at + 5))
          },
        })
        const port = { readable, open: async () => {}, close: async () => {} }
        Object.defineProperty(navigator, 'serial', { value: { requestPort: async () => port } })
      }, lines),
    )
    await page.getByRole('button', { name: 'Listen to a scale' }).click()
    await page.getByText(/^Listening to the scale/).waitFor()
    await expect.poll(() => page.getByLabel('The scale shows').inputValue()).toBe('421.50 g')
    expect(faults).toEqual([])
    await page.close()
  })
  test('is not offered where the browser has none', async () => {
    const { page } = await open('/bench?reel=REYRT', {}, (one) =>
      one.addInitScript(() => {
        delete (Navigator.prototype as { serial?: unknown }).serial
      }),
    )
    await isExpecting(page)
    expect(await page.getByRole('button', { name: 'Listen to a scale' }).count()).toBe(0)
    await page.close()
  })
})

describe('other bench work', () => {
  test('calipers: what no filament measures is refused beside its place', async () => {
    const { page } = await open('/bench?measure=calipers&reel=FFP4R')
    const place = page.getByLabel('Place 1')
    await place.fill('17.5 x 17.4')
    await place.press('Enter')
    await page.getByText('It has to lie between 0.5 and 10 mm. Check the unit.').waitFor()
    await expect.poll(() => place.evaluate((one) => one === document.activeElement)).toBe(true)
    expect(await place.getAttribute('aria-invalid')).toBe('true')
    expect(await page.getByText(/^Mean of/).count()).toBe(0)
    await page.close()
  })

  test('calipers: the mean is told while places are typed, with commas or points', async () => {
    const { page, faults } = await open('/bench?measure=calipers&reel=QFMJY')
    await page.getByLabel('Place 1').fill('1,74 x 1,77')
    await page
      .getByText(/^Mean of one place: 1\.75/)
      .last()
      .waitFor()
    await page.getByLabel('Place 2').fill('1.75 x 1.78')
    await page
      .getByText(/^Mean of 2 places: 1\.76/)
      .last()
      .waitFor()
    await page.getByText('As a table').click()
    await page.getByRole('row', { name: 'Place 2 1.75 mm 1.78 mm' }).waitFor()
    await page.getByRole('row', { name: /^mean 1\.76/ }).waitFor()
    await keep(page)
    await isKept(page)
    await page.getByRole('row', { name: /^linear density/ }).waitFor()
    expect(await factsOf('QFMJY', 'measured')).not.toHaveLength(0)
    expect(faults).toEqual([])
    await page.close()
  })

  test('what can not be read is not left out in silence', async () => {
    const { page } = await open('/bench?measure=calipers&reel=FFP4R')
    const before = await factsOf('FFP4R', 'measured')
    await page.getByLabel('Place 1').fill('1.74 x 1.77')
    await page.getByLabel('Place 2').fill('1,73 1,75')
    await page.getByLabel('Place 3').fill('1.75')
    await keep(page)
    await page.locator('[slot=errorMessage]', { hasText: '1,75' }).waitFor()
    expect(await page.evaluate(() => (document.activeElement as HTMLInputElement).value)).toBe(
      '1,73 1,75',
    )
    expect(await factsOf('FFP4R', 'measured')).toHaveLength(before.length)
    await page.getByLabel('Place 2').fill('1,73 x 1,75')
    await keep(page)
    await isKept(page)
    expect(await factsOf('FFP4R', 'measured')).toHaveLength(before.length + 1)
    await page.close()
  })

  test('a cut length comes off the reel', async () => {
    const { page } = await open('/bench?measure=cut&reel=82GUP')
    await keep(page)
    await page.getByRole('alert').filter({ hasText: 'how long' }).waitFor()
    await page.getByLabel('Length of the piece').fill('1000 mm')
    await page.getByLabel('What the scale shows with the piece').fill('2,98 g')
    await keep(page)
    await isKept(page)
    await page.getByText('The piece that was cut off is taken off the reel.').waitFor()
    expect(await factsOf('82GUP', 'trimmed')).toHaveLength(1)
    await page.close()
  })

  test('an empty carrier teaches the other reels of its make', async () => {
    const { page } = await open('/bench?measure=carrier')
    const shelf = await get<ReelListJson>('/reels')
    const make = shelf.reels.find(({ reel }) => reel.id === 'REYRT')?.reel.make ?? ''
    await page.getByRole('combobox', { name: 'Make' }).fill(make)
    await page.getByRole('option', { name: make, exact: true }).click()
    const { tare_g } = await get<ReelShowJson>('/reels/REYRT')
    await page
      .getByLabel('What the scale shows with the empty carrier')
      .fill(String(Math.round(tare_g?.value ?? 0)))
    await keep(page)
    await isKept(page)
    const taught = page.getByRole('table', { name: /^What it taught of/ })
    await taught.waitFor()
    const rows = await taught.getByRole('row').allTextContents()
    expect(rows.length).toBeGreaterThan(1)
    await page.close()
  })

  test('of a make with reels of several sizes the size of the carrier is chosen', async () => {
    const named = { name: 'Shingle PETG', maker: 'Shingle', material: 'PETG' }
    const reels: string[] = []
    for (const label_net_g of [1000, 3000]) {
      // oxlint-disable-next-line no-await-in-loop -- the first brings the make
      const added = await fetch(`${stage.served.origin}/api/reels`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ make: named, label_net_g }),
      })
      // oxlint-disable-next-line no-await-in-loop -- as above
      reels.push(((await added.json()) as RecordedJson).reels[0]?.reel ?? '')
    }
    const before = await tareOf(reels[0])
    const { page, faults } = await open('/bench?measure=carrier')
    await page.getByRole('combobox', { name: 'Make' }).fill('Shingle PETG')
    await page.getByRole('option', { name: 'Shingle PETG', exact: true }).click()
    await page.getByLabel('What the scale shows with the empty carrier').fill('640')
    await keep(page)
    await page.getByRole('alert').filter({ hasText: 'of which size' }).waitFor()
    await page.getByLabel('What was on the label of what it carried').selectOption('3000')
    await keep(page)
    await isKept(page)
    expect(await tareOf(reels[0])).toBe(before)
    expect(Math.abs((await tareOf(reels[1])) - 640)).toBeLessThan(10)
    expect(faults).toEqual([])
    await page.close()
  })

  test('a carrier whose figure is corrected is tested anew: nothing is taken that was not shown', async () => {
    const { page } = await open('/bench?measure=carrier&reel=REYRT')
    const before = await factsOf('REYRT', 'carrier-weighed')
    const { tare_g } = await get<ReelShowJson>('/reels/REYRT')
    const right = Math.round(tare_g?.value ?? 0)
    await page.getByText('a reel, its own', { exact: true }).click()
    const field = page.getByLabel('What the scale shows with the empty carrier')
    await field.fill(`${right}0`)
    await keep(page)
    await page.getByText(`The scale shows ${right}0 g`).waitFor()
    await field.fill(String(right))
    await page.getByText('The weighing does not agree').waitFor({ state: 'detached' })
    expect(await page.getByRole('button', { name: 'Take it as it is' }).count()).toBe(0)
    await keep(page)
    await isKept(page)
    expect(await factsOf('REYRT', 'carrier-weighed')).toHaveLength(before.length + 1)
    await page.close()
  })

  test.each([
    ['dried', 'dried', async (page: Page) => page.getByLabel('Temperature').fill('45')],
    [
      'moved',
      'moved',
      async (page: Page) => page.getByLabel('Where it stands now').fill('<i>till</i>'),
    ],
    ['trimmed', 'trimmed', async (page: Page) => page.getByLabel('Length taken off').fill('1,5 m')],
    [
      'winding',
      'measured',
      async (page: Page) => {
        await page.getByLabel('Hub, across').fill('80')
        await page.getByLabel('Winding, across').fill('90')
        await page.getByLabel('Between the flanges').fill('55')
      },
    ],
    [
      'immersion',
      'measured',
      async (page: Page) => {
        await page.getByLabel('In air').fill('4.213')
        await page.getByLabel('Hung in water').fill('0.842')
        await page.getByLabel('Temperature of the water').fill('21')
        await page.getByText(/^Its density: 1\.2/).waitFor()
      },
    ],
  ] as const)('%s is written down', async (measure, kind, fill) => {
    const { page, faults } = await open(`/bench?measure=${measure}&reel=7EG54`)
    const before = await factsOf('7EG54', kind)
    await fill(page)
    await keep(page)
    await isKept(page)
    expect(await factsOf('7EG54', kind)).toHaveLength(before.length + 1)
    expect(faults).toEqual([])
    await page.close()
  })

  test('a data sheet is told of a make', async () => {
    const { page } = await open('/bench?measure=sheet')
    await page.getByRole('combobox', { name: 'Make' }).fill('hallvane')
    await page.getByRole('option').first().click()
    await page.getByLabel('Which sheet').fill('Hallvane wood, May 2025')
    await page.getByLabel('Density').fill('1,15 ± 0,02')
    await keep(page)
    await isKept(page)
    await page.getByRole('button', { name: 'Put right' }).click()
    const form = page.getByRole('form', { name: /^Put right/ })
    await form.getByText('another make', { exact: true }).click()
    await form.getByRole('combobox', { name: 'The right make' }).fill('tessamund')
    await page
      .getByRole('option', { name: /Tessamund/ })
      .first()
      .click()
    await form.getByLabel('Why it does not hold').fill('the other box')
    await form.getByRole('button', { name: 'Write it down' }).click()
    await page.getByRole('button', { name: 'Done' }).waitFor()
    await page.close()
  })

  test('arrivals: several alike, weighed each, with ids and labels', async () => {
    const { page, faults } = await open('/bench?measure=arrivals')
    const before = (await get<ReelListJson>('/reels')).reels.length
    await page.getByRole('combobox', { name: 'Make' }).fill('<b>Lamplight</b> PETG')
    await page.getByLabel('Its maker').fill('Norrvik')
    await page.getByRole('combobox', { name: 'Material' }).fill('petg')
    await page.getByRole('option', { name: 'PETG', exact: true }).click()
    await page.getByLabel('Net on the label').fill('0,75 kg')
    await page.getByLabel('How many alike').fill('3')
    await page.getByLabel('Colour', { exact: true }).fill('lamp yellow')
    await page.getByLabel('As it looks').fill('#e0b020')
    await page.getByLabel('Price of one').fill('21,90')
    await page.getByLabel('Lot').fill('N 7')
    await page.getByLabel('Where they stand').fill('window')
    await page.getByLabel('Reel 1').fill('985')
    await page.getByLabel('Reel 2').fill('988,5')
    await keep(page)
    await isKept(page)
    const ids = await page
      .getByRole('list', { name: 'Ids of the reels' })
      .getByRole('link')
      .allTextContents()
    expect(ids).toHaveLength(3)
    expect((await get<ReelListJson>('/reels')).reels).toHaveLength(before + 3)
    const { reel } = await get<ReelShowJson>(`/reels/${ids[2]}`)
    expect(reel).toMatchObject({
      make: 'Norrvik <b>Lamplight</b> PETG',
      material: 'petg',
      colour: 'lamp yellow',
      srgb: '#e0b020',
      lot: 'N 7',
      place: 'window',
    })
    await page.emulateMedia({ media: 'print' })
    expect(await page.locator('#sheet').isVisible()).toBe(false)
    const printed = await page.locator('body').innerText()
    for (const id of ids) expect(printed).toContain(id)
    expect(printed).toContain('<b>Lamplight</b> PETG')
    expect(faults).toEqual([])
    await page.close()
  })

  test('arrivals that are part-used: what they weigh now is no more than they hold', async () => {
    const { page, faults } = await open('/bench?measure=arrivals')
    await page.getByRole('combobox', { name: 'Make' }).fill('Trotline PLA')
    await page.getByLabel('Its maker').fill('Trotline')
    await page.getByText('part-used', { exact: true }).click()
    await page.getByLabel('Net on the label').fill('1 kg')
    await page.getByLabel('How many alike').fill('2')
    await page.getByLabel('Colour', { exact: true }).fill('tar black')
    await page.getByText('not told', { exact: true }).waitFor()
    await page.getByLabel('Reel 1').fill('460')
    await page.getByRole('button', { name: 'Something else stands on it' }).click()
    await page.getByLabel('What else stands on the scale').fill('38')
    expect(await onEveryGround(page)).toEqual(forAll)
    await keep(page)
    await isKept(page)
    const ids = await page
      .getByRole('list', { name: 'Ids of the reels' })
      .getByRole('link')
      .allTextContents()
    const [weighed, unweighed] = await Promise.all(
      ids.map((id) => get<ReelShowJson>(`/reels/${id}`)),
    )
    // Of another holder there would be 38 g more, of a new reel 1 kg.
    expect((weighed?.net_g?.value ?? 0) + (weighed?.tare_g?.value ?? 0)).toBeCloseTo(422, 0)
    expect(weighed?.reel).toMatchObject({ state: 'part-used', colour: 'tar black', srgb: null })
    expect(unweighed?.reel.state).toBe('part-used')
    expect(unweighed?.net_g?.u).toBeGreaterThan(200)
    expect(await factsOf(ids[0] ?? '', 'weighed')).toHaveLength(1)
    expect(faults).toEqual([])
    await page.close()
  })

  test('a colour that was picked can be taken back', async () => {
    const { page } = await open('/bench?measure=arrivals')
    await page.getByRole('combobox', { name: 'Make' }).fill('Hawser PLA')
    await page.getByLabel('Its maker').fill('Hawser')
    await page.getByLabel('As it looks').fill('#101820')
    await keep(page)
    await page.getByRole('alert').filter({ hasText: 'Name the colour' }).waitFor()
    await page.getByRole('button', { name: 'Take it back' }).click()
    await page.getByText('not told', { exact: true }).waitFor()
    await page.getByLabel('Colour', { exact: true }).fill('tar black')
    await keep(page)
    await isKept(page)
    const { reels } = await get<ReelListJson>('/reels')
    expect(reels.find(({ reel }) => reel.make === 'Hawser PLA')?.reel).toMatchObject({
      colour: 'tar black',
      srgb: null,
    })
    await page.close()
  })

  test('arrivals that stop half-way go on with the rest, and tell which are on the shelf', async () => {
    const { page } = await open('/bench?measure=arrivals')
    page.setDefaultTimeout(30_000)
    const before = (await get<ReelListJson>('/reels')).reels.length
    await page.getByRole('combobox', { name: 'Make' }).fill('Lamplight PLA')
    await page.getByLabel('Its maker').fill('Norrvik')
    await page.getByLabel('Net on the label').fill('0,75 kg')
    await page.getByLabel('How many alike').fill('3')
    const asked = '**/api/reels'
    let posts = 0
    await page.route(asked, (route) =>
      route.request().method() === 'POST' && ++posts === 2 ? route.abort() : route.continue(),
    )
    await keep(page)
    await page.getByText('1 of 3 is on the shelf.').waitFor()
    const ids = page.getByRole('list', { name: 'Ids of the reels' }).getByRole('link')
    const [first = ''] = await ids.allTextContents()
    expect((await get<ReelListJson>('/reels')).reels).toHaveLength(before + 1)
    expect(await onEveryGround(page)).toEqual(forAll)
    await page.getByLabel('Net on the label').fill('1 kg')
    await keep(page)
    await isKept(page)
    const all = await ids.allTextContents()
    expect(all).toHaveLength(3)
    expect(all[0]).toBe(first)
    expect((await get<ReelListJson>('/reels')).reels).toHaveLength(before + 3)
    await page.close()
  })
})

describe('by keyboard alone', () => {
  test('a reel is found by words and weighed', async () => {
    const figure = String(Math.round(await expectedOf('REYRT')))
    const { page } = await open('/bench')
    await page.getByText('more; type to find them').waitFor()
    await tabTo(page, /^Which reel/)
    await page.keyboard.type('gull grey')
    await page.keyboard.press('Enter')
    await isExpecting(page)
    await page.keyboard.type(figure)
    await page.keyboard.press('Enter')
    await isKept(page)
    await page.close()
  })
  test('an id is typed in small letters', async () => {
    const { page } = await open('/bench')
    await page.getByLabel(/^Which reel/).fill('reyrt')
    await page.keyboard.press('Enter')
    await isExpecting(page)
    expect(page.url()).toContain('reel=REYRT')
    await page.close()
  })
  test('what is typed and not picked is taken where it is one, and else refused', async () => {
    const { page, faults } = await open('/bench?measure=moved&reel=44SGD')
    const field = page.getByRole('combobox', { name: 'Reel' })
    await expect.poll(() => field.inputValue(), { timeout: 10_000 }).toMatch(/^44SGD, /)
    await page.getByLabel('Where it stands now').fill('net loft')
    const before = await placed('44SGD')
    // One that is not there is not turned into the one picked before.
    await field.fill('ZZZZZ')
    await page.keyboard.press('Tab')
    await page.getByText('None here has "ZZZZZ".').waitFor()
    expect(await field.inputValue()).toBe('ZZZZZ')
    await keep(page)
    expect(await field.evaluate((one) => one === document.activeElement)).toBe(true)
    // What a pointer rests on in the list is picked by Tab.
    await page.mouse.move(0, 0)
    // Part of many names none.
    await field.fill('a')
    await page.keyboard.press('Tab')
    await page.getByText('"a" can be more than one.').waitFor()
    await field.fill('ffp4r')
    await page.keyboard.press('Tab')
    expect(await field.inputValue()).toMatch(/^FFP4R, /)
    await keep(page)
    await isKept(page)
    await page.getByText('Reel FFP4R stands at net loft now.').waitFor()
    expect(await placed('FFP4R')).toBe('net loft')
    expect(await placed('44SGD')).toBe(before)
    expect(faults).toEqual([])
    await page.close()
  })
  for (const leaving of ['Tab', 'Enter', 'press'] as const) {
    test(`the material of a new make is kept as typed, left by ${leaving}`, async () => {
      const { page } = await open('/bench?measure=arrivals')
      await page.getByRole('combobox', { name: 'Make' }).fill(`Buoy ${leaving}`)
      await page.getByLabel('Its maker').fill('Norrvik')
      await page.getByRole('combobox', { name: 'Material' }).fill('petg')
      if (leaving !== 'press') await page.keyboard.press(leaving)
      else await page.getByLabel('Lot').click()
      expect(await page.getByRole('combobox', { name: 'Material' }).inputValue()).toBe('PETG')
      await page.getByLabel('Net on the label').fill('0,75 kg')
      await keep(page)
      await isKept(page)
      const { reels } = await get<ReelListJson>('/reels')
      expect(reels.find(({ reel }) => reel.make === `Norrvik Buoy ${leaving}`)?.reel.material).toBe(
        'petg',
      )
      await page.close()
    })
  }
  test('bench work is gone to, a reel picked from the list, and it is moved', async () => {
    const { page } = await open('/bench')
    await page.getByText('more; type to find them').waitFor()
    await tabTo(page, /^Moving/)
    await page.keyboard.press('Enter')
    await page.getByRole('combobox', { name: 'Reel' }).waitFor()
    await tabTo(page, /^Where it stands now/)
    await page.keyboard.type('crate')
    await page.keyboard.press('Shift+Tab')
    await page.keyboard.type('foam white')
    await page.getByRole('option').first().waitFor()
    await page.keyboard.press('ArrowDown')
    await page.keyboard.press('Enter')
    await tabTo(page, /^Keep it/)
    await page.keyboard.press('Enter')
    await isKept(page)
    expect((await get<ReelShowJson>('/reels/QX5BN')).reel.place).toBe('crate')
    await page.close()
  })
})

/** What is not among the sheets that every-sheet.test.ts looks at. */
const sheets: readonly (readonly [string, string, (page: Page) => Promise<unknown>])[] = [
  [
    'a figure typed',
    '/bench?reel=REYRT',
    async (page) => {
      await isExpecting(page)
      await page.getByLabel('The scale shows').fill('400')
      await page.getByText(/^It does not agree/).waitFor()
    },
  ],
  [
    'a list to pick from',
    '/bench?measure=calipers',
    async (page) => {
      await page.getByRole('combobox', { name: 'Reel' }).fill('pla')
      await page.getByRole('option').first().waitFor()
    },
  ],
  [
    'arrivals of a new make',
    '/bench?measure=arrivals',
    async (page) => {
      await page.getByRole('combobox', { name: 'Make' }).fill('Tallow')
      await page.keyboard.press('Tab')
      await page.getByLabel('Its maker').waitFor()
    },
  ],
]

test.each(sheets)('%s bars nobody, by day, by night and on a phone', async (_, path, act) => {
  const { page, faults } = await open(path)
  await act(page)
  // While a list is open all else is hidden from who hears the page; Tab closes it first (below).
  const isOpen = (await page.getByRole('listbox').count()) > 0
  const hidden = isOpen ? ['aria-hidden-focus', 'page-has-heading-one', 'region'] : []
  expect(await onEveryGround(page, hidden)).toEqual(forAll)
  expect(faults).toEqual([])
  await page.close()
})

test('an open list is closed by Tab, and nothing is hidden any more', async () => {
  const { page } = await open('/bench?measure=calipers')
  await page.getByRole('combobox', { name: 'Reel' }).fill('pla')
  await page.getByRole('option').first().waitFor()
  await page.keyboard.press('Tab')
  await page.getByRole('listbox').waitFor({ state: 'detached' })
  expect(await page.locator('nav[aria-hidden], main [aria-hidden=true] :focus').count()).toBe(0)
  await page.close()
})
