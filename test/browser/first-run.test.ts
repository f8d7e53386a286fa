import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import type { ServedApp } from '../app/serve-app.ts'
import { runCli } from '../cli/run-cli.ts'
import { startServe } from '../cli/start-serve.ts'
import { barriers, giveFile, openPage, stageOf } from './in-browser.ts'

// From an empty data folder to the first verdict, and round the demo shelf.

const stage = stageOf()
const serveEmpty = (): Promise<ServedApp> => stage.serve('empty')

const tellOfReel = async (page: Page, gross: string): Promise<void> => {
  await page.getByLabel('Make: who made it').fill('Bight')
  await page.getByLabel('Material').fill('PLA')
  await page.getByLabel('Net mass on its label').fill('1 kg')
  await page.getByLabel('Weigh it').fill(gross)
  await page.getByRole('button', { name: 'Put it on the shelf' }).click()
}

const realPrint = fileURLToPath(
  new URL('../../../shared/prints/grid-relative.gcode', import.meta.url),
)
const isRealThere = existsSync(realPrint)

test(`the first verdict, of ${isRealThere ? 'a real print' : 'a demo print, as no real one is here'}`, async () => {
  const server = await serveEmpty()
  const { page, faults } = await openPage(stage.browser, server.origin)
  await page.getByText('No reels yet.').waitFor()
  await giveFile(page, isRealThere ? realPrint : join(server.prints, 'knob.gcode'))
  await page.getByText(/ draws \d+\.\d m of filament\.$/).waitFor()
  // What is missing is said, next to its field.
  await page.getByRole('button', { name: 'Put it on the shelf' }).click()
  await page.getByText('Make: who made it: fill this in.').waitFor()
  await tellOfReel(page, '900 g')
  const answer = page.getByRole('region', { name: 'The answer' })
  await answer.waitFor()
  expect(await answer.textContent()).toMatch(/enough|close|short/)
  const [, id = ''] =
    /^Reel (\w{5}) is on the shelf\. Write \1 on it\.$/.exec(
      (await page.getByText(/is on the shelf/).textContent()) ?? '',
    ) ?? []
  const listed = runCli(['reel', 'list', '--json', '--data', server.data]).out
  expect(listed).toContain(`"${id}"`)
  expect(faults).toEqual([])
  await page.close()
})

test('the reel first, by keyboard alone; then a print on the sheet Shelf', async () => {
  const server = await serveEmpty()
  const { page } = await openPage(stage.browser, `${server.origin}/shelf`)
  await page.getByLabel('Make: who made it').focus()
  await page.keyboard.type('Bight')
  for (const [presses, typed] of [
    [1, 'no such stuff'],
    [1, '0,75 kg'],
    [2, '28 oz'],
  ] as const) {
    // oxlint-disable no-await-in-loop
    for (let press = 0; press < presses; press++) await page.keyboard.press('Tab')
    await page.keyboard.type(typed)
  }
  await page.keyboard.press('Enter')
  await page.getByRole('alert').getByText('no such stuff').waitFor()
  await page.getByLabel('Material').fill('petg')
  await page.keyboard.press('Enter')
  await page.getByText(/^Reel \w{5} is on the shelf/).waitFor()
  await giveFile(page, join(server.prints, 'knob.gcode'))
  await page.getByRole('link', { name: 'Check' }).click()
  await page.getByRole('region', { name: 'The answer' }).waitFor()
  await page.close()
})

test('what the scale can not show is asked back before it is written down', async () => {
  const server = await serveEmpty()
  const { page } = await openPage(stage.browser, server.origin)
  await page.getByText('No reels yet.').waitFor()
  await tellOfReel(page, '3 kg')
  const anyway = page.getByRole('button', { name: 'Take it as it is' })
  await anyway.waitFor()
  expect(await barriers(page)).toEqual([])
  expect(runCli(['reel', 'list', '--json', '--data', server.data]).out).not.toContain('Bight')
  // Corrected, it is no more what was asked back: nothing is taken that was not shown.
  await page.getByLabel('Weigh it').fill('3.1 kg')
  await anyway.waitFor({ state: 'detached' })
  await page.getByRole('button', { name: 'Put it on the shelf' }).click()
  await anyway.click()
  await page.getByText(/^Reel \w{5} is on the shelf/).waitFor()
  await page.close()
})

test('the demo shelf: loaded and removed with one press each, on every open page', async () => {
  const server = await serveEmpty()
  const { page, faults } = await openPage(stage.browser, server.origin)
  const other = await openPage(stage.browser, `${server.origin}/shelf`)
  await other.page.getByText('No reels yet.').waitFor()
  expect(await page.locator('footer').textContent()).toContain('your own')
  await page.getByRole('button', { name: 'Look around with the demo shelf' }).click()
  await page.getByText('12 reels').first().waitFor()
  expect(await page.locator('footer').textContent()).toContain('demo shelf')
  await page.waitForFunction(() => document.activeElement?.tagName === 'MAIN')
  await other.page.getByText('12 reels').first().waitFor()
  // Whoever has no print at hand takes one of the bench's.
  await page.getByRole('link', { name: 'Check' }).click()
  await page.getByText('Or take a print of the demo bench').waitFor()
  expect(await barriers(page)).toEqual([])
  await page.getByRole('button', { name: 'tackle-box.gcode' }).click()
  await page.getByRole('region', { name: 'The answer' }).waitFor()
  await other.page.getByRole('button', { name: 'Remove the demo shelf' }).click()
  await other.page.getByText('No reels yet.').waitFor()
  // The print stays at hand; of the demo's reels nothing is left.
  await page.getByText(/^tackle-box\.gcode draws/).waitFor()
  expect(await page.locator('footer').textContent()).toContain('your own')
  expect(runCli(['reel', 'list', '--json', '--data', server.data]).out).toContain('"reels": []')
  expect([...faults, ...other.faults]).toEqual([])
  await page.close()
  await other.page.close()
})

test('begun with the demo shelf, as npm start does, the way to the own shelf is one press', async () => {
  const { data, end: endOther } = await serveEmpty()
  await endOther()
  const { port, end } = await startServe(['--demo'], data)
  const { page } = await openPage(stage.browser, `http://127.0.0.1:${port}/`)
  await page.getByRole('button', { name: 'two-tool-part.gcode' }).click()
  await page.getByRole('region', { name: 'The answer' }).waitFor()
  await page.getByRole('button', { name: 'Remove the demo shelf' }).click()
  await page.getByText('No reels yet.').waitFor()
  await page.close()
  await end()
})
