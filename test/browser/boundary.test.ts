import { join } from 'node:path'
import { expect, test } from 'vitest'
import { barriers, giveFile, openPage, stageOf } from './in-browser.ts'

// A sheet that throws takes nothing else with it.

const stage = stageOf({ server: 'bench' })

test('a sheet that throws says so; the print at hand and the other sheets stay', async () => {
  const { page, faults } = await openPage(stage.browser, stage.server.origin)
  await giveFile(page, join(stage.server.prints, 'tackle-box.gcode'))
  await page.getByRole('region', { name: 'The answer' }).waitFor()
  // An answer that the sheet can not draw.
  const broken = /\/api\/reels\/\w{5}$/
  await page.route(broken, (route) =>
    route.fulfill({ json: { opened_at: '2026-01-01T00:00:00.000Z', reel: null } }),
  )
  await page.getByRole('link', { name: 'Shelf' }).click()
  await page.locator('a[href="/reel/QFMJY"]').click()
  const alert = page.getByRole('alert')
  await alert.getByText('This sheet could not be drawn').waitFor()
  expect(await page.title()).toContain('could not be drawn')
  expect(faults.join()).toContain('TypeError')
  expect(await barriers(page)).toEqual([])
  // Drawn again it fails again, until the cause is gone.
  await page.getByRole('button', { name: 'Draw it again' }).click()
  await alert.waitFor()
  await page.unroute(broken)
  await page.getByRole('button', { name: 'Draw it again' }).click()
  await page.getByText('Its life').waitFor()
  // And the way back.
  await page.route(broken, (route) => route.fulfill({ json: { reel: null } }))
  await page.reload()
  await alert.waitFor()
  await page.getByRole('navigation').getByRole('link', { name: 'Shelf' }).click()
  await page.getByText('12 reels').first().waitFor()
  await page.close()
})

test('what was at hand on another sheet is there when one comes back', async () => {
  const { page } = await openPage(stage.browser, stage.server.origin)
  await giveFile(page, join(stage.server.prints, 'tackle-box.gcode'))
  await page.getByRole('region', { name: 'The answer' }).waitFor()
  await page.route(/\/api\/reels\/\w{5}$/, (route) => route.fulfill({ json: { reel: null } }))
  await page
    .getByRole('link', { name: /^Reel / })
    .first()
    .click()
  await page.getByRole('alert').waitFor()
  await page.getByRole('main').getByRole('link', { name: 'Check' }).click()
  await page.getByRole('region', { name: 'The answer' }).waitFor()
  expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe('tackle-box.gcode')
  await page.close()
})
