import { expect, test } from 'vitest'
import { reelShowJson } from '../../src/contract/index.ts'
import { openPage, stageOf } from './in-browser.ts'

// Whoever is chosen at the foot of a sheet is named under what is written in that browser.

const stage = stageOf({ served: 'bench', empty: 'empty' })

test('a weighing is written down by the person chosen, and by nobody where nobody is', async () => {
  const { page, faults } = await openPage(stage.browser, `${stage.served.origin}/bench?reel=REYRT`)
  const weigh = async (figure: string): Promise<void> => {
    await page.goto(`${stage.served.origin}/bench?reel=REYRT`)
    await page.getByLabel('The scale shows').fill(figure)
    await page.getByRole('button', { name: 'Keep it' }).click()
    await page.getByRole('heading', { name: 'It is written down' }).waitFor()
  }
  const writer = page.getByLabel('Written down by')
  await weigh('423')
  await writer.selectOption({ label: 'Mags Dunmarrow' })
  await weigh('422')
  const { facts } = reelShowJson.parse(
    await (await fetch(`${stage.served.origin}/api/reels/REYRT`)).json(),
  )
  const [first, second] = facts.slice(-2).map(({ what }) => what)
  expect(first).toBe('weighed 423 g on the kitchen scale')
  expect(second).toBe('weighed 422 g on the kitchen scale, by Mags Dunmarrow')
  // The choice is kept, and can be taken back.
  expect(await writer.locator('option:checked').textContent()).toBe('Mags Dunmarrow')
  await writer.selectOption({ label: 'nobody named' })
  await page.reload()
  expect(await writer.locator('option:checked').textContent()).toBe('nobody named')
  expect(faults).toEqual([])
  await page.close()
})

test('where the ledger knows no people nothing is asked', async () => {
  const { page } = await openPage(stage.browser, `${stage.empty.origin}/shelf`)
  await page.getByText('No reels yet.').waitFor()
  await page.waitForLoadState('networkidle').catch(() => undefined)
  expect(await page.getByLabel('Written down by').count()).toBe(0)
  await page.close()
})
