import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { planJson, type SlateJson, slateJson } from '../../src/contract/index.ts'
import { serveApp } from '../app/serve-app.ts'
import { byDayAndNight, giveFile, openPage, stageOf } from './in-browser.ts'

// The sheet Slate in a real browser, on the built server and a ledger of its own.

const stage = stageOf({ server: 'bench' })

const slate = async (): Promise<SlateJson> =>
  slateJson.parse(await (await fetch(`${stage.server.origin}/api/slate`)).json())

/** The print that a test put there. */
const boxOnSlate = async (): Promise<SlateJson['waiting'][number] | undefined> =>
  (await slate()).waiting.find(({ row }) => row.name === 'tackle-box')

const isClear = async (page: Page): Promise<void> => {
  expect(await byDayAndNight(page)).toEqual({ day: [], night: [] })
}

test('a print goes from Check to the slate, is changed there and taken off, by keys alone', async () => {
  const { page, faults } = await openPage(stage.browser, stage.server.origin)
  page.setDefaultTimeout(20_000)
  await giveFile(page, join(stage.server.prints, 'tackle-box.gcode'))
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
  await list
    .getByText(/^any material, tar black or slate; may change reels on the way; takes about /)
    .waitFor()
  await isClear(page)
  expect((await boxOnSlate())?.row).toMatchObject({
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
  expect((await boxOnSlate())?.row).toMatchObject({ copies: 3, importance: 2 })
  await page.getByRole('button', { name: 'Take off the slate: tackle-box' }).press('Enter')
  await list.getByText('tackle-box').waitFor({ state: 'detached' })
  expect(await boxOnSlate()).toBeUndefined()
  expect(faults).toEqual([])
  await page.close()
}, 120_000)

test('a print that is finished takes its copy off the slate', async () => {
  const { page } = await openPage(stage.browser, stage.server.origin, {
    viewport: { width: 390, height: 844 },
  })
  page.setDefaultTimeout(20_000)
  await giveFile(page, join(stage.server.prints, 'knob.gcode'))
  await page.getByRole('button', { name: /^Start it on/ }).click()
  const running = page.getByRole('region', { name: 'Running' })
  await running.getByRole('button', { name: 'Finished' }).click()
  await running.getByText('One copy of winch knob is off the slate; 3 wait still.').waitFor()
  await page.getByRole('link', { name: 'Slate', exact: true }).click()
  await page.getByText('3 of 4 copies wait').waitFor()
  await page.close()
}, 120_000)

test('an empty slate says what it is for', async () => {
  const empty = await serveApp('empty')
  const { page } = await openPage(stage.browser, `${empty.origin}/slate`)
  await page.getByText('No print waits.').waitFor()
  await isClear(page)
  expect(await page.getByRole('button', { name: 'Match them' }).count()).toBe(0)
  await page.close()
  await empty.end()
}, 120_000)

test('the match by keys alone: drawn, asked why, wished otherwise, kept, handed out with its stops', async () => {
  const { page, faults } = await openPage(stage.browser, `${stage.server.origin}/slate`)
  page.setDefaultTimeout(60_000)
  await page.getByRole('button', { name: 'Match them' }).press('Enter')
  const keep = page.getByRole('button', { name: 'Keep this plan' })
  await keep.waitFor()
  // Who pressed it is where they were.
  const focused = page.locator(':focus')
  expect(await focused.textContent()).toBe('Match them anew')
  const white = page.getByRole('region', { name: 'Reel QX5BN' })
  await white.getByRole('img', { name: /^Reel QX5BN as a trough of/ }).waitFor()
  const why = white.getByRole('button', { name: /^Why 5a, tackle box, from QX5BN/ })
  await why.press('Enter')
  expect(await why.getAttribute('aria-expanded')).toBe('true')
  await isClear(page)
  // The figures behind the picture.
  await page.getByText('The same as a table').press('Enter')
  const rows = page.getByRole('row', { name: /tackle box/ })
  expect(await rows.count()).toBe(2)
  await white.getByRole('button', { name: 'Not from QX5BN' }).press('Enter')
  const wished = page.getByRole('region', { name: 'What if' })
  await wished.getByText('tackle box not from QX5BN').waitFor()
  await white.getByRole('button', { name: /^Why 5a/ }).waitFor({ state: 'detached' })
  // One of the two is made from what two reels still hold.
  const notes = page.getByRole('region', { name: 'Notes by the printer' })
  await notes.getByText('Take care: at a change the nozzle and bed are hot').first().waitFor()
  await isClear(page)
  await notes.getByText('A copy that waits there').first().press('Enter')
  const give = async (file: string): Promise<void> => {
    const chooser = page.waitForEvent('filechooser')
    await notes.getByRole('button', { name: 'Choose the file' }).first().press('Enter')
    await (await chooser).setFiles(join(stage.server.prints, file))
  }
  await give('knob.gcode')
  await notes.getByText('That is another file than tackle box on the slate.').waitFor()
  const download = page.waitForEvent('download')
  await give('tackle-box.gcode')
  const copied = readFileSync(await (await download).path(), 'utf8').split('\n')
  const before = readFileSync(join(stage.server.prints, 'tackle-box.gcode'), 'utf8').split('\n')
  const added = copied.filter((line) => line.includes('; reelreckon:'))
  expect(added).toHaveLength(1)
  expect(copied.filter((line) => !added.includes(line))).toEqual(before)
  await wished.getByRole('button', { name: 'Let it go: tackle box not from QX5BN' }).press('Enter')
  await white.getByRole('button', { name: /^Why 5a/ }).waitFor()
  await keep.press('Enter')
  await page.getByText('It is kept: the next match differs').waitFor()
  const plan = planJson.parse(await (await fetch(`${stage.server.origin}/api/plan`)).json())
  expect(plan.choices.some(({ reel }) => reel === 'QX5BN')).toBe(true)
  expect(faults).toEqual([])
  await page.close()
}, 300_000)

test('a match that is stopped leaves the plan as it was', async () => {
  const { page } = await openPage(stage.browser, `${stage.server.origin}/slate`, {}, (one) =>
    one.route('**/api/matches', async (route) => {
      await new Promise((settle) => setTimeout(settle, 3000))
      await route.continue().catch(() => undefined)
    }),
  )
  page.setDefaultTimeout(30_000)
  await page.getByRole('button', { name: 'Match them' }).click()
  await page.getByRole('progressbar').waitFor()
  await page.getByRole('button', { name: 'Stop' }).click()
  await page.getByText('Stopped. The plan is what it was before.').waitFor()
  expect(await page.getByRole('progressbar').count()).toBe(0)
  await page.close()
}, 120_000)

test('the work sheet of the week prints on one page', async () => {
  const { page } = await openPage(stage.browser, `${stage.server.origin}/slate`)
  page.setDefaultTimeout(60_000)
  await page.getByRole('button', { name: 'Match them' }).click()
  await page.getByRole('button', { name: 'Keep this plan' }).waitFor()
  const pdf = (await page.pdf({ format: 'A4' })).toString('latin1')
  expect(pdf.match(/\/Type\s*\/Page\b/g)).toHaveLength(1)
  await page.close()
}, 120_000)
