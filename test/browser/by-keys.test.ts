import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { openPage, stageOf, tabTo } from './in-browser.ts'

// Work that the tests of its sheet do with a pointer, done with keys alone. That the keys reach whatever can be pressed is
// shown of every sheet in every-sheet.test.ts.

const stage = stageOf({ bench: 'bench' })

const open = async (path: string): Promise<Page> => {
  const { page } = await openPage(stage.browser, stage.bench.origin + path, { locale: 'en-GB' })
  page.setDefaultTimeout(20_000)
  return page
}

/** Goes to what has such a name, and types there. */
const typeAt = async (page: Page, name: RegExp, text: string): Promise<void> => {
  await tabTo(page, name)
  await page.keyboard.type(text)
}

/** Goes to what has such a name, and presses it. */
const pressAt = async (page: Page, name: RegExp, key = 'Enter'): Promise<void> => {
  await tabTo(page, name)
  await page.keyboard.press(key)
}

test('a print is answered for another material, and a reel is found in it', async () => {
  const page = await open('/')
  await page.getByRole('button', { name: 'Choose a print file' }).waitFor()
  const chooser = page.waitForEvent('filechooser')
  await pressAt(page, /Choose a print file/)
  await (await chooser).setFiles(join(stage.bench.prints, 'tackle-box.gcode'))
  await page.getByRole('region', { name: 'The answer' }).waitFor()
  const chosen = page.getByRole('radio', { checked: true }).first()
  const before = await chosen.getAttribute('value')
  await pressAt(page, /^(?:PLA|PETG|TPU|any)\b/, 'ArrowRight')
  await expect.poll(() => chosen.getAttribute('value')).not.toBe(before)
  await page.getByRole('region', { name: 'The answer' }).waitFor()
  await pressAt(page, /^What it rests on/)
  await page.getByRole('rowheader', { name: 'margin' }).first().waitFor()
  await page.close()
})

test('a weighing that surprises is left out', async () => {
  const page = await open('/bench?reel=REYRT')
  await page.locator('svg text', { hasText: /^expected/ }).waitFor()
  await typeAt(page, /^The scale shows/, '400')
  await page.keyboard.press('Enter')
  await page.getByRole('alert').waitFor()
  await pressAt(page, /^Leave it out/)
  await page.getByRole('alert').waitFor({ state: 'detached' })
  await page.close()
})

test('a cut length is measured', async () => {
  const page = await open('/bench')
  await page.getByText('more; type to find them').waitFor()
  await pressAt(page, /^Cut/)
  await page.getByRole('combobox', { name: 'Reel' }).waitFor()
  await typeAt(page, /^Reel/, 'GQWGD')
  await page.getByRole('option').first().waitFor()
  await page.keyboard.press('ArrowDown')
  await page.keyboard.press('Enter')
  await typeAt(page, /^Length of the piece/, '1 m')
  await typeAt(page, /^What the scale shows/, '2.95 g')
  await pressAt(page, /^Keep it/)
  await page.getByRole('heading', { name: 'It is written down' }).waitFor()
  await page.close()
})

test('a weighing is put right', async () => {
  const page = await open('/reel/QX5BN')
  await page.getByText('Its facts, latest first').waitFor()
  await pressAt(page, /^Put right: weighed 1064/)
  await typeAt(page, /^The right mass/, '1065')
  await typeAt(page, /^Why it does not hold/, 'read upside down')
  await pressAt(page, /^Write it down/)
  await page.getByRole('button', { name: 'Done' }).waitFor()
  await page.close()
})

test('a person comes to the bench', async () => {
  const page = await open('/set-up/people')
  await pressAt(page, /^Add a person/)
  await page.getByRole('heading', { name: 'A new person' }).waitFor()
  await page.keyboard.type('Merle Quist')
  await page.keyboard.press('Enter')
  await page.getByText('Kept: Merle Quist.').waitFor()
  await page.close()
})

test('masses are shown in ounces, and the paper is dark', async () => {
  const page = await open('/shelf')
  await page.getByText('12 reels').first().waitFor()
  await pressAt(page, /^grams/, 'ArrowRight')
  await page
    .getByText(/\d\soz/)
    .first()
    .waitFor()
  await pressAt(page, /^as the device/, 'ArrowLeft')
  await page.locator('html[data-ground=night]').waitFor()
  await page.close()
})

test('the slate is matched, one print is asked about, and the plan is kept', async () => {
  const page = await open('/slate')
  await pressAt(page, /^Match them/)
  await page.getByRole('button', { name: 'Keep this plan' }).waitFor({ timeout: 60_000 })
  await pressAt(page, /^Why /)
  await page.getByRole('button', { name: /^Leave .* out$/ }).waitFor()
  await pressAt(page, /^Keep this plan/)
  await page.getByText('It is kept: the next match').waitFor()
  await page.close()
})

test('a backup is taken', async () => {
  const page = await open('/set-up/backup')
  await page.getByText('Get a backup').waitFor()
  const download = page.waitForEvent('download')
  await pressAt(page, /^Get a backup/)
  expect((await download).suggestedFilename()).toMatch(/\.sqlite$/)
  await page.close()
})
