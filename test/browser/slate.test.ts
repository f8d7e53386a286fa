import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type SlateJson, slateJson } from '../../src/contract/index.ts'
import { type ServedApp, serveApp } from '../app/serve-app.ts'
import { barriers, giveFile, launch, openPage } from './in-browser.ts'

// The sheet Slate in a real browser, on the built server and a ledger of its own.

let server: ServedApp
let browser: Browser
beforeAll(async () => {
  server = await serveApp('bench')
  browser = await launch()
}, 240_000)
afterAll(async () => {
  await browser?.close()
  await server?.end()
})

const slate = async (): Promise<SlateJson> =>
  slateJson.parse(await (await fetch(`${server.origin}/api/slate`)).json())

const isClear = async (page: Page): Promise<void> => {
  for (const colorScheme of ['light', 'dark'] as const) {
    // oxlint-disable no-await-in-loop -- one ground after the other
    await page.emulateMedia({ colorScheme })
    expect(await barriers(page)).toEqual([])
    // oxlint-enable no-await-in-loop
  }
}

test('a print goes from Check to the slate, is changed there and taken off, by keys alone', async () => {
  const { page, faults } = await openPage(browser, server.origin)
  page.setDefaultTimeout(20_000)
  await giveFile(page, join(server.prints, 'tackle-box.gcode'))
  const way = page.getByRole('link', { name: 'Put it on the slate' })
  await way.waitFor()
  await way.press('Enter')
  const copies = page.getByLabel('Copies')
  await copies.waitFor()
  await isClear(page)
  await copies.press('Control+a')
  await page.keyboard.type('3')
  await page.getByLabel('Colours that will do').press('Control+a')
  await page.keyboard.type('tar black, slate')
  await page.getByLabel('A planned change of reels').press('Space')
  await page.getByLabel('Layers after which it would not show').press('Control+a')
  await page.keyboard.type('12-9999')
  await page.keyboard.press('Enter')
  await page.getByText(/^The print has layers 1 to \d+/).waitFor()
  await page.keyboard.press('Control+a')
  await page.keyboard.type('12-40, 77')
  await page.keyboard.press('Enter')
  const list = page.getByRole('list', { name: 'Prints that wait' })
  await list.getByText('tackle-box').waitFor()
  await list.getByText('3 copies').waitFor()
  await list.getByText('any material, tar black or slate; may change reels on the way').waitFor()
  await isClear(page)
  const [one] = (await slate()).waiting
  expect(one?.row).toMatchObject({
    copies: 3,
    tools: [{ tool: 0, colours: ['tar black', 'slate'] }],
    changes: {
      after_layers: [
        [12, 40],
        [77, 77],
      ],
    },
  })
  await page.getByRole('button', { name: 'Change tackle-box' }).press('Enter')
  await page.getByLabel('Importance').selectOption('before all else')
  await page.getByRole('button', { name: 'Keep', exact: true }).press('Enter')
  await list.getByText('more important').waitFor()
  expect((await slate()).waiting[0]?.row).toMatchObject({ copies: 3, importance: 2 })
  await page.getByRole('button', { name: 'Take tackle-box off the slate' }).press('Enter')
  await page.getByText('No print waits.').waitFor()
  expect((await slate()).waiting).toEqual([])
  expect(faults).toEqual([])
  await page.close()
}, 120_000)

test('a print that is finished takes its copy off the slate', async () => {
  const { page } = await openPage(browser, server.origin, {
    viewport: { width: 390, height: 844 },
  })
  page.setDefaultTimeout(20_000)
  await page.getByRole('link', { name: 'Slate', exact: true }).click()
  await page.getByRole('button', { name: 'Put a print on the slate' }).click()
  await giveFile(page, join(server.prints, 'knob.gcode'))
  await page.getByRole('button', { name: 'Put it on the slate' }).click()
  await page.getByRole('list', { name: 'Prints that wait' }).getByText('knob').waitFor()
  await page.getByRole('link', { name: 'Check' }).click()
  await giveFile(page, join(server.prints, 'knob.gcode'))
  await page.getByRole('button', { name: /^Start it on/ }).click()
  const running = page.getByRole('region', { name: 'Running' })
  await running.getByRole('button', { name: 'Finished' }).click()
  await running.getByText('knob is off the slate').waitFor()
  await page.getByRole('link', { name: 'Slate', exact: true }).click()
  await page.getByText('No print waits.').waitFor()
  await page.close()
}, 120_000)
