import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { describe, expect, test } from 'vitest'
import { type ServedApp, serveApp } from '../app/serve-app.ts'
import { runCli } from '../cli/run-cli.ts'
import { startServe } from '../cli/start-serve.ts'
import {
  barriers,
  forAll,
  type Opened,
  onEveryGround,
  openPage,
  stageOf,
  tabTo,
} from './in-browser.ts'

// The set-up in a real browser, on the built server. What is asked depends on what was done before.
// oxlint-disable no-await-in-loop

const stage = stageOf({ bench: 'bench', empty: 'empty' })

/** A page of the app; what goes wrong in it is kept in `faults`. */
const open = async (
  path: string,
  { origin }: Pick<ServedApp, 'origin'> = stage.bench,
  more: Parameters<Browser['newPage']>[0] = {},
): Promise<Opened> => {
  // What the ledger refuses is told in the page; the browser says so as well.
  const opened = await openPage(stage.browser, origin + path, more, async () => {}, /status of 4/)
  opened.page.setDefaultTimeout(15_000)
  return opened
}

const give = async (
  page: Page,
  press: string,
  name: string,
  text: string | Buffer,
  mimeType = 'text/plain',
): Promise<void> => {
  const chooser = page.waitForEvent('filechooser')
  await page.getByRole('button', { name: press }).click()
  await (await chooser).setFiles({ name, mimeType, buffer: Buffer.from(text) })
}

const table = `Product;Brand;Stuff;Label;On scale;Hue
Coastal;Kittiwake;PLA;1000 g;812 g;<img src=x onerror=alert(1)>
Coastal;Kittiwake;PLA;1000 g;heavy;foam
Coastal;Kittiwake;moonstone;1000 g;600 g;sand
`

const nameColumns = async (page: Page): Promise<void> => {
  await page.getByLabel('Column Stuff is').selectOption('material')
  await page.getByLabel('Column Hue is').selectOption('colour')
  await page.getByLabel('Column On scale is').selectOption('gross')
  await page.getByLabel('The scale of its weighings').selectOption({ label: 'kitchen scale' })
}

test('a form of the priors bars nobody, by day, by night and on a phone', async () => {
  const { page, faults } = await open('/set-up/priors')
  await page.getByRole('button', { name: /^Set: Tail/ }).click()
  expect(await onEveryGround(page)).toEqual(forAll)
  expect(faults).toEqual([])
  await page.close()
})

test('what the ledger learnt stands beside what was told', async () => {
  const { page } = await open('/set-up/printers')
  const gull = page.getByRole('region', { name: 'the Gull' })
  const factor = gull.getByRole('row', { name: /^Feed factor/ })
  await factor.getByText(/^from \d+ prints$/).waitFor()
  expect(await factor.textContent()).toMatch(/1\.00\d+ ± 0\.0\d+/)
  await page.goto(`${stage.bench.origin}/set-up/makes`)
  const make = page.getByRole('region', { name: 'Ostrelle PLA' })
  const tare = make.getByRole('row', { name: /^Tare/ })
  await tare.getByText('from 4 reels, 1 empty carrier weighed').waitFor()
  expect(await tare.textContent()).toMatch(/\d+\s±\s\d+\sg/)
  await page.close()
})

test('what was told of a make alone is listed with it, and put right later', async () => {
  const weighing = { reading_g: 231, scale: 'kitchen scale' }
  const told = { make: 'Ostrelle PLA', empty: true, weighing, accept: true }
  const written = await fetch(`${stage.bench.origin}/api/weighings`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(told),
  })
  expect(written.status).toBe(201)
  const { page, faults } = await open('/set-up/makes')
  const make = page.getByRole('region', { name: 'Ostrelle PLA' })
  await make.getByText('Empty carriers weighed, and data sheets').click()
  const carrier = make.getByRole('listitem').filter({ hasText: /its empty carrier .* weighed/ })
  await carrier.waitFor()
  expect(await carrier.count()).toBe(1)
  expect(await onEveryGround(page)).toEqual(forAll)
  await carrier.getByRole('button', { name: /^Put right/ }).click()
  const form = page.getByRole('form', { name: /^Put right/ })
  await form.getByLabel('The right mass').fill('232 g')
  await form.getByLabel('Why it does not hold').fill('misread')
  await form.getByRole('button', { name: 'Write it down' }).click()
  await form.waitFor({ state: 'detached' })
  await make.getByRole('button', { name: 'Done' }).click()
  await carrier.filter({ hasText: /weighed 232\sg/ }).waitFor()
  await carrier.getByText('does not hold: misread').waitFor()
  expect(await carrier.count()).toBe(2)
  expect(faults).toEqual([])
  await page.close()
})

describe('by keyboard alone', () => {
  test('a printer is added, put right, retired and taken into use again', async () => {
    const { page, faults } = await open('/', stage.empty)
    await tabTo(page, /^Set-up$/)
    await page.keyboard.press('Enter')
    await page.getByRole('heading', { name: 'Set-up' }).waitFor()
    await tabTo(page, /^Printers$/)
    await page.keyboard.press('Enter')
    await tabTo(page, /^Add a printer$/)
    await page.keyboard.press('Enter')
    await page.getByRole('heading', { name: 'A new printer' }).waitFor()
    await tabTo(page, /^Feed factor/)
    await page.keyboard.type('9')
    await page.keyboard.press('Enter')
    // The first slip is where the keys go.
    await page.getByText('This is needed.').waitFor()
    const nameField = await page.getByLabel('Name').getAttribute('id')
    await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe(nameField)
    expect(await page.getByRole('alert').allTextContents()).toEqual([
      'This is needed.',
      expect.stringContaining('would not print'),
    ])
    await page.keyboard.type('left printer')
    await tabTo(page, /^Feed factor/)
    await page.keyboard.press('Control+A')
    await page.keyboard.type('1,006 ± 0,005')
    await tabTo(page, /^Tail/)
    await page.keyboard.type('0,5 m')
    await page.keyboard.press('Enter')
    await page.getByRole('status').getByText('Kept: left printer.').waitFor()
    await expect
      .poll(() => page.evaluate(() => document.activeElement?.textContent))
      .toBe('Add a printer')
    const entry = page.getByRole('region', { name: 'left printer' })
    expect(await entry.getByRole('row', { name: /^Feed factor/ }).textContent()).toContain(
      '1.006 ± 0.005',
    )
    await tabTo(page, /^Change left printer$/)
    await page.keyboard.press('Enter')
    await tabTo(page, /^Feed factor/)
    await page.keyboard.press('Control+A')
    await page.keyboard.press('Delete')
    await page.keyboard.press('Enter')
    await page.getByRole('status').getByText('Kept: left printer.').waitFor()
    expect(await entry.getByRole('row', { name: /^Feed factor/ }).textContent()).not.toContain(
      '1.006',
    )
    expect(await entry.getByRole('row', { name: /^Tail/ }).textContent()).toContain('500')
    await tabTo(page, /^Retire left printer$/)
    await page.keyboard.press('Enter')
    await entry.getByText('no longer in use').waitFor()
    await tabTo(page, /^Take into use again: left printer$/)
    await page.keyboard.press('Enter')
    await page.getByRole('button', { name: 'Retire left printer' }).waitFor()
    expect(faults).toEqual([])
    await page.close()
  })
  test('a prior is set and taken back', async () => {
    const { page, faults } = await open('/set-up/priors', stage.empty)
    await page.getByLabel('Find by words').waitFor()
    await tabTo(page, /^Find by words/)
    await page.keyboard.type('tail')
    await tabTo(page, /^Set: Tail of a reel$/)
    await page.keyboard.press('Enter')
    // The keys go on in its field.
    await page.getByLabel('Tail of a reel: what holds here').waitFor()
    await page.keyboard.type('much')
    await page.keyboard.press('Enter')
    await page.getByRole('alert').waitFor()
    await page.keyboard.press('Control+A')
    await page.keyboard.type('320 ± 40 mm')
    await page.keyboard.press('Enter')
    const tail = page.getByRole('region', { name: 'Tail of a reel' })
    await tail.getByText('320 ± 40 mm', { exact: true }).waitFor()
    await tail.getByText('500 ± 250 mm', { exact: true }).waitFor()
    await tabTo(page, /^As usual again: Tail/)
    await page.keyboard.press('Enter')
    await tail.getByText('as usual', { exact: true }).waitFor()
    expect(faults).toEqual([])
    await page.close()
  })
})

test('how a printer moves is pasted, put right, and plans the times of the print at hand', async () => {
  const { page, faults } = await open('/')
  await give(
    page,
    'Choose a print file',
    'knob.gcode',
    readFileSync(join(stage.bench.prints, 'knob.gcode')),
  )
  const takes = page.getByText(/^The print takes about/)
  const before = await takes.textContent()
  // Not anew: the print at hand stays while other sheets are looked at.
  await page.getByRole('link', { name: 'Set-up' }).click()
  await page.getByRole('link', { name: 'Printers' }).click()
  await page.getByRole('button', { name: 'Change the Gull' }).click()
  await page.getByText('How it moves').click()
  await page.getByLabel('Or paste its answer').fill('M204 P200 T200\nM205 X2 Y2 Z0.3 E5')
  await page.getByRole('button', { name: 'Take the values from it' }).click()
  await page.getByText('4 values are taken over.').waitFor()
  expect(await page.getByLabel('Acceleration printing').inputValue()).toBe('200')
  await page.getByLabel('Jerk of X').fill('2 2')
  await page.getByRole('button', { name: 'Keep' }).click()
  await page.getByText('here are 2').waitFor()
  expect(await barriers(page)).toEqual([])
  await page.getByLabel('Jerk of X').fill('2 2 0.3 5')
  await page.getByRole('button', { name: 'Keep' }).click()
  await page.getByText('Kept: the Gull.').waitFor()
  await page.getByRole('link', { name: 'Check' }).click()
  await page.getByLabel('Printer').selectOption({ label: 'the Gull' })
  await expect.poll(() => takes.textContent(), { timeout: 15_000 }).not.toBe(before)

  // What it took teaches the pace.
  await page.getByRole('button', { name: /^Start it on/ }).click()
  const running = page.getByRole('region', { name: 'Running' })
  await running.getByText(/it ends .*about/).waitFor()
  await running.getByLabel('It took').fill('2 h 10 min')
  await running.getByRole('button', { name: 'Finished' }).click()
  await running.getByText('Written down as finished.').waitFor()
  await page.goto(`${stage.bench.origin}/set-up/printers`)
  const gull = page.getByRole('region', { name: 'the Gull' })
  await gull
    .getByRole('row', { name: /^Takes over the plan/ })
    .getByText('1 print timed')
    .waitFor()
  expect(faults).toEqual([])
  await page.close()
}, 60_000)

test('a name that is taken is told at its field, and hostile names are text', async () => {
  const hostile = '<img src=x onerror=alert(1)>'
  const { page, faults } = await open('/set-up/people', stage.empty)
  const add = async (name: string): Promise<void> => {
    await page.getByRole('button', { name: 'Add a person' }).click()
    await page.getByLabel('Name').fill(name)
    await page.getByRole('button', { name: 'Keep' }).click()
  }
  await add(hostile)
  await page.getByRole('heading', { name: hostile }).waitFor()
  await add(hostile.toUpperCase())
  const alert = page.getByRole('alert')
  expect(await alert.textContent()).toBe(
    'There is a person of that name already. Choose another name.',
  )
  const field = page.getByLabel('Name')
  expect(await field.getAttribute('aria-invalid')).toBe('true')
  const described = await field.getAttribute('aria-describedby')
  const told = await page.evaluate(
    (ids) => (ids ?? '').split(' ').map((id) => document.getElementById(id)?.textContent ?? ''),
    described,
  )
  expect(told.join(' ')).toContain('of that name already')
  expect(await page.locator('main img').count()).toBe(0)
  expect(faults).toEqual([])
  await page.close()
})

test('a make is added with a material found by words', async () => {
  const { page, faults } = await open('/set-up/makes', stage.empty)
  await page.getByRole('button', { name: 'Add a make' }).click()
  await page.getByLabel('Maker').fill('Kittiwake')
  await page.getByLabel('Name').fill('Coastal')
  await page.getByRole('combobox', { name: 'Material' }).fill('petg')
  await page.getByRole('option', { name: 'PETG', exact: true }).click()
  await page.getByLabel('Net mass on its labels').fill('0,75 kg')
  await page.getByLabel('Carrier').selectOption('cardboard')
  await page.getByRole('button', { name: 'Keep' }).click()
  const make = page.getByRole('region', { name: 'Kittiwake Coastal' })
  await make.getByText('750 g').waitFor()
  await make.getByText('PETG').waitFor()
  await make.getByText('Learnt by the ledger: nothing yet').waitFor()
  expect(faults).toEqual([])
  await page.close()
})

const grossOf = async (origin: string, reel: string): Promise<number> => {
  const { facts } = (await (await fetch(`${origin}/api/reels/${reel}`)).json()) as {
    readonly facts: readonly unknown[]
  }
  return facts.length
}

test('a backup is restored: what was weighed since is gone, and what stood is kept', async () => {
  const own = await serveApp('bench')
  const { page, faults } = await open('/set-up/backup', own, { acceptDownloads: true })
  const { reels } = (await (await fetch(`${own.origin}/api/reels`)).json()) as {
    readonly reels: readonly { readonly reel: { readonly id: string } }[]
  }
  const reel = reels[0]!.reel.id
  const weigh = async (reading_g: number): Promise<void> => {
    const answer = await fetch(`${own.origin}/api/weighings`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({
        reel,
        weighing: { reading_g, scale: 'kitchen scale' },
        accept: true,
      }),
    })
    expect(answer.status).toBe(201)
  }
  await weigh(500)
  const first = await grossOf(own.origin, reel)
  const downloading = page.waitForEvent('download')
  await page.getByRole('link', { name: 'Get a backup' }).click()
  const backup = readFileSync(await (await downloading).path())
  await weigh(480)
  expect(await grossOf(own.origin, reel)).toBe(first + 1)

  await give(page, 'Choose a backup', 'letter.sqlite', 'Dear Tilde')
  expect(await page.getByRole('alert').textContent()).toContain('letter.sqlite was not restored')
  await give(page, 'Choose a backup', 'shelf.sqlite', backup)
  await page.getByText(/It holds \d+ facts/).waitFor()
  await page.getByRole('button', { name: 'Leave the ledger as it is' }).click()
  await page.getByText('The ledger is as it was.').waitFor()
  expect(await grossOf(own.origin, reel)).toBe(first + 1)

  await give(page, 'Choose a backup', 'shelf.sqlite', backup)
  await page.getByRole('button', { name: 'Put it in its place' }).click()
  await page.getByText('Restored from shelf.sqlite.').waitFor()
  expect(await page.locator('main').getByRole('status').last().textContent()).toContain(own.data)
  expect(await grossOf(own.origin, reel)).toBe(first)
  expect(faults).toEqual([])
  await page.close()
  await own.end()
})

test('sending a backup can be stopped', async () => {
  const { page } = await open('/set-up/backup')
  const session = await page.context().newCDPSession(page)
  await session.send('Network.enable')
  await session.send('Network.emulateNetworkConditions', {
    offline: false,
    latency: 0,
    downloadThroughput: 1e6,
    uploadThroughput: 200_000,
  })
  // From the disk: so much would take its time to be handed to the browser.
  const large = join(mkdtempSync(join(tmpdir(), 'reelreckon-backup-')), 'large.sqlite')
  writeFileSync(large, Buffer.alloc(20_000_000))
  const chooser = page.waitForEvent('filechooser')
  await page.getByRole('button', { name: 'Choose a backup' }).click()
  await (await chooser).setFiles(large)
  await page.getByRole('progressbar').waitFor()
  await page.getByRole('button', { name: 'Cancel' }).click()
  await page.getByText('The ledger is as it was.').waitFor()
  await page.close()
})

test('a table of reels: columns are named, it is tried, and the good rows are taken', async () => {
  const own = await serveApp('bench')
  const { page, faults } = await open('/set-up/import', own)
  const count = async (): Promise<number> => {
    const { reels } = (await (await fetch(`${own.origin}/api/reels?all=true`)).json()) as {
      readonly reels: readonly unknown[]
    }
    return reels.length
  }
  const before = await count()
  await give(page, 'Choose a file', 'reels.csv', table)
  await nameColumns(page)
  await page.getByRole('button', { name: 'Show what would come' }).click()
  const outcome = page.getByRole('table', { name: 'What would become of each row' })
  await outcome.waitFor()
  const rows = await outcome.getByRole('row').allTextContents()
  expect(rows[3]).toContain('a reelKittiwake Coastal, PLA, <img src=x onerror=alert(1)>')
  expect(rows[1]).toContain('left outColumn “On scale”')
  expect(rows[2]).toContain('moonstone')
  expect(await page.locator('main img').count()).toBe(0)
  expect(await count()).toBe(before)
  // What was shown does not hold of other columns.
  await page.getByLabel('Column Stuff is').selectOption('')
  await outcome.waitFor({ state: 'detached' })
  await page.getByRole('button', { name: 'Show what would come' }).click()
  await page.getByRole('button', { name: 'Take over 2 reels' }).dblclick()
  await page.getByText('Taken over from reels.csv: 2 reels.').waitFor()
  expect(await count()).toBe(before + 2)
  const id = await outcome.getByRole('link').first().textContent()
  await outcome.getByRole('link').first().click()
  await page.getByRole('heading', { name: `Reel ${id}` }).waitFor()
  expect(faults).toEqual([])
  await page.close()
  await own.end()
})

test('lines of another ledger are tried first, then taken over', async () => {
  const own = await serveApp('empty')
  const lines = await (await fetch(`${stage.bench.origin}/api/export`)).text()
  const { page, faults } = await open('/set-up/import', own)
  await give(page, 'Choose a file', 'letter.ndjson', '{"no":"ledger"}\n')
  await page.getByRole('alert').waitFor()
  await give(page, 'Choose another file', 'shelf.ndjson', lines)
  await page.getByText(/Of shelf\.ndjson \d+ records would be written/).waitFor()
  const rows = async (): Promise<unknown> =>
    ((await (await fetch(`${own.origin}/api/rows/make`)).json()) as { readonly rows: unknown[] })
      .rows.length
  expect(await rows()).toBe(0)
  await page.getByRole('button', { name: 'Take it over' }).click()
  await page.getByText(/Taken over from shelf\.ndjson: \d+ records/).waitFor()
  expect(await rows()).toBe(7)
  await give(page, 'Choose another file', 'shelf.ndjson', lines)
  await page.getByText('There is nothing to take over.').waitFor()
  expect(faults).toEqual([])
  await page.close()
  await own.end()
})

test('a token is made, shown once, used, and taken back', async () => {
  const own = await serveApp('empty')
  await own.end()
  const words = 'gulls sleep on one leg'
  const set = runCli(['serve', '--new-pass-phrase', '--data', own.data], { input: `${words}\n` })
  expect(set.exit).toBe(0)
  const { port, end } = await startServe(['--name', 'bench.harbour'], own.data)
  const origin = `http://127.0.0.1:${port}`
  const page = await stage.browser.newPage({ reducedMotion: 'reduce' })
  await page.request.post(`${origin}/api/session`, { data: { pass_phrase: words } })
  await page.goto(`${origin}/set-up/access`)
  await page.getByText('This server asks for its pass-phrase.').waitFor()
  await page.getByText('reelreckon serve --new-pass-phrase').waitFor()
  await page.getByLabel('What is it for?').fill('the scale at the bench')
  await page.getByRole('button', { name: 'Make a token' }).dblclick()
  const secret = page.getByText(/^[0-9a-f]{64}$/)
  const token = (await secret.textContent())!
  const ask = async (): Promise<number> => {
    const headers = { authorization: `Bearer ${token}` }
    return (await fetch(`${origin}/api/reels`, { headers })).status
  }
  expect((await fetch(`${origin}/api/reels`)).status).toBe(401)
  expect(await ask()).toBe(200)
  await page.getByRole('button', { name: 'I have it' }).click()
  await page.reload()
  await page.getByText('the scale at the bench').first().waitFor()
  expect(await secret.count()).toBe(0)
  await page.getByRole('button', { name: 'Take back the token for the scale' }).click()
  expect(await ask()).toBe(200)
  await page.getByRole('button', { name: 'Take it back' }).click()
  await page.getByText('The token for “the scale at the bench” is taken back.').waitFor()
  expect(await ask()).toBe(401)
  await page.getByText('No token has been made.').waitFor()
  await page.close()
  await end()
})
