import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { basename, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Browser, Locator, Page } from 'playwright-core'
import { describe, expect, test } from 'vitest'
import { showMass } from '../../src/app/strings/show-figure.ts'
import type {
  RecordedJson,
  ReelListJson,
  ReelShowJson,
  ShelfCheckJson,
} from '../../src/contract/index.ts'
import { formatMeasured } from '../../src/units/index.ts'
import type { ServedApp } from '../app/serve-app.ts'
import { runCli } from '../cli/run-cli.ts'
import {
  barriers,
  byDayAndNight,
  type Opened,
  ofAnyMaterial,
  openPage,
  stageOf,
  tabTo,
} from './in-browser.ts'

// Writing down what becomes of a print, and putting right what does not hold: the built app in a real
// browser, the built server, a ledger on disk; held against what the command line says.

const outside = fileURLToPath(
  new URL('../../../shared/prints/grid-relative.gcode', import.meta.url),
)

const stage = stageOf()
const bench = (): Promise<ServedApp> => stage.bench()

const open = async (
  { origin }: ServedApp,
  path: string,
  more: Parameters<Browser['newPage']>[0] = {},
): Promise<Opened> => {
  const opened = await openPage(stage.browser, origin + path, more)
  opened.page.setDefaultTimeout(15_000)
  return opened
}

const give = async (page: Page, file: string, reel?: string): Promise<void> => {
  const chooser = page.waitForEvent('filechooser')
  await page.getByRole('button', { name: /Choose a print file|Another print/ }).click()
  await (await chooser).setFiles(file)
  await page.getByRole('region', { name: 'The answer' }).waitFor()
  if (reel === undefined) return
  await ofAnyMaterial(page)
  await page.getByRole('button', { name: reel }).first().click()
  await page.getByRole('link', { name: `Reel ${reel}` }).waitFor()
}

const showReel = async ({ origin }: ServedApp, reel: string): Promise<ReelShowJson> => {
  const response = await fetch(`${origin}/api/reels/${reel}`)
  return response.json() as Promise<ReelShowJson>
}

/** The same ledger for the command line alone. */
const ledgerBeside = ({ prints }: ServedApp): Readonly<Record<string, string>> => {
  const env = { REELRECKON_DATA: mkdtempSync(join(tmpdir(), 'reelreckon-beside-')) }
  const { exit, err } = runCli(['import', join(prints, 'marrowick.ndjson')], { env })
  if (exit !== 0) throw new Error(err)
  return env
}

const draws = ({ facts }: ReelShowJson): number =>
  facts.filter(({ kind, voided }) => kind === 'drew' && voided === null).length

const flat = async (at: Locator): Promise<string> =>
  ((await at.textContent()) ?? '').replaceAll(/\s+/g, ' ')

/** As a mass stands in what `flat` reads. */
const shown = (mass: Parameters<typeof showMass>[0]): string =>
  showMass(mass, 'g').replaceAll(/\s+/g, ' ')

/** As a reel's change stands on the sheet. */
const changeOf = ({ reels: [one] }: RecordedJson): string => {
  if (!one?.before || !one.now) throw new Error('no change')
  return `Reel ${one.reel}before${shown(one.before.net_g)}→now${shown(one.now.net_g)}`
}

const failsAtLayer = async (server: ServedApp, file: string, layer: number): Promise<void> => {
  const { page, faults } = await open(server, '/')
  await give(page, file, 'QX5BN')
  await page.getByLabel('Printer').selectOption({ label: 'the Gull' })
  await page.getByRole('button', { name: 'Start it on QX5BN' }).click()
  const running = page.getByRole('region', { name: 'Running' })
  await running.getByText(`${basename(file)} on QX5BN`).waitFor()
  expect(draws(await showReel(server, 'QX5BN'))).toBe(8)
  // The morning after, and without the file.
  await page.goto(server.origin)
  await running.getByRole('button', { name: 'Failed' }).click()
  await running.getByLabel(/Last layer it reached/).fill(`${layer}`)
  await running.getByText(/^ended at/).waitFor()
  await running.getByRole('button', { name: 'Write it down' }).click()
  await running.getByText(`failed at layer ${layer}`).waitFor()
  const words = ['draw', file, '--reel', 'QX5BN', '--printer', 'the Gull']
  const told = runCli([...words, '--stopped-at', `layer=${layer}`, '--json'], {
    env: ledgerBeside(server),
  })
  const json: RecordedJson = JSON.parse(told.out)
  expect(json.reels[0]?.before?.net_g.value).toBeGreaterThan(json.reels[0]?.now?.net_g.value ?? 0)
  expect(await flat(running)).toContain(changeOf(json))
  const after = await showReel(server, 'QX5BN')
  expect(draws(after)).toBe(9)
  expect(after.net_g?.value).toBeCloseTo(json.reels[0]?.now?.net_g.value ?? 0, 3)
  // Put right at once: it did not happen.
  await running.getByRole('button', { name: 'Put right' }).click()
  await running.getByLabel('Why it does not hold').fill('another print')
  await running.getByRole('button', { name: 'Write it down' }).click()
  await expect.poll(async () => draws(await showReel(server, 'QX5BN'))).toBe(8)
  expect(faults).toEqual([])
  await page.close()
}

test('a print that failed takes the part that was fed, as the command line says', async () => {
  const server = await bench()
  await failsAtLayer(server, join(server.prints, 'tackle-box.gcode'), 100)
}, 90_000)

test.skipIf(!existsSync(outside))(
  'a print from outside does, too',
  async () => {
    await failsAtLayer(await bench(), outside, 7)
  },
  90_000,
)

test('of a shelf of several materials one touch says what a print is made of, and it is kept', async () => {
  const server = await bench()
  const { page, faults } = await open(server, '/')
  // Another file than any that waits on the slate.
  const file = join(mkdtempSync(join(tmpdir(), 'reelreckon-made-of-')), 'knob.gcode')
  const text = readFileSync(join(server.prints, 'knob.gcode'), 'utf8')
  writeFileSync(file, `${text}\n; once more\n`)
  const told = page.waitForResponse((one) => one.url().endsWith('/api/checks/shelf'))
  await give(page, file)
  const { materials, tools } = (await (await told).json()) as ShelfCheckJson
  expect(materials.length).toBeGreaterThan(1)
  const start = page.getByRole('button', { name: /^Start it on/ })
  const isMain = (): Promise<boolean> => start.evaluate((press) => /main/.test(press.className))
  const answer = page.getByRole('region', { name: 'The answer' })
  const first = tools[0]!.reels[0]!
  expect(first.verdict).toBe('enough')
  await page.getByText('What is it to be made of?').waitFor()
  await answer.getByText(/^If .+ will do:$/).waitFor()
  expect(await isMain()).toBe(false)
  expect(await barriers(page)).toEqual([])
  // Another one than that of the reel that came first.
  const other = materials.find(({ id }) => id !== first.reel.material)!
  await page.getByText(`${other.name} (${other.reels})`).click()
  const said = page.getByRole('radio', { name: `${other.name} (${other.reels})` })
  await expect.poll(() => said.isChecked()).toBe(true)
  await answer.getByText(/will do:$/).waitFor({ state: 'detached' })
  await expect.poll(() => start.textContent()).not.toContain(first.reel.id)
  const [, id = ''] = /on (\w{5})/.exec((await start.textContent()) ?? '') ?? []
  expect((await showReel(server, id)).reel.material).toBe(other.id)
  // Kept for this print, and for no other.
  await page.goto(server.origin)
  await give(page, file)
  await expect.poll(() => said.isChecked()).toBe(true)
  await expect.poll(() => start.textContent()).toContain(id)
  writeFileSync(file, `${text}\n; and again\n`)
  await give(page, file)
  await page.getByText('What is it to be made of?').waitFor()
  // A reel that is taken is an answer as well.
  await page.getByRole('button', { name: 'QX5BN' }).first().click()
  await page.getByText('What is it to be made of?').waitFor({ state: 'detached' })
  // Of a print that waits it was said where it was put on the slate.
  await give(page, join(server.prints, 'vase.gcode'))
  await page.getByText('Made of, as the slate has it').waitFor()
  expect(await page.getByRole('radio', { name: /^PETG/ }).isChecked()).toBe(true)
  await ofAnyMaterial(page)
  await page.getByText('Made of', { exact: true }).waitFor()
  expect(faults).toEqual([])
  await page.close()
}, 120_000)

test('every reel that is short can be seen, and stays where a weighing is only supposed', async () => {
  const server = await bench()
  const { page, faults } = await open(server, '/')
  const told = page.waitForResponse((one) => one.url().endsWith('/api/checks/shelf'))
  await give(page, join(server.prints, 'tackle-box.gcode'))
  const [{ short, reels } = { short: 0, reels: [] }] = (
    (await (await told).json()) as ShelfCheckJson
  ).tools
  const more = short - reels.filter(({ verdict }) => verdict === 'short').length
  expect(more).toBeGreaterThan(1)
  const rest = page.getByRole('group').filter({ hasText: `${more} more are short` })
  await rest.getByText(`${more} more are short`).click()
  await expect.poll(() => rest.getByRole('listitem').count()).toBe(more)
  expect(await rest.getByText('short', { exact: true }).count()).toBe(more)
  expect(await barriers(page)).toEqual([])
  // What does not agree has no chance that is told: neither in the answer nor in the ranking.
  await page.getByRole('button', { name: 'REYRT' }).first().click()
  await page.getByLabel('Weigh reel REYRT').fill('550')
  const answer = page.getByRole('region', { name: 'The answer' })
  await answer.getByText('no chance to be told').waitFor()
  const strip = page.getByRole('button', { name: 'REYRT' }).first()
  expect(await flat(strip)).toMatch(/^close\s*\d/)
  const held = await flat(answer.locator('dl dd').nth(1))
  expect(await flat(strip)).toContain(held)
  await answer.getByText('the print, to scale').waitFor()
  expect(faults).toEqual([])
  await page.close()
}, 90_000)

test('a print that was started keeps its reel, and a double press starts one', async () => {
  const server = await bench()
  const { page, faults } = await open(server, '/')
  // The reel is offered, and not taken by hand.
  await give(page, join(server.prints, 'knob.gcode'))
  const cut = page.getByRole('link', { name: /^Reel \w{5}, cut open$/ })
  const offered = await flat(cut)
  const start = page.getByRole('button', { name: /^Start it on/ })
  await start.dblclick()
  const running = page.getByRole('region', { name: 'Running' })
  await running.getByText('knob.gcode on').waitFor()
  // Longer than a double press, and than another answer.
  await page.waitForTimeout(1500)
  expect(await running.getByRole('listitem').count()).toBe(1)
  expect(await flat(cut)).toBe(offered)
  expect(await start.isDisabled()).toBe(true)
  // Once it is told what became of it, it may be started again.
  await running.getByRole('button', { name: 'It never ran' }).click()
  await expect.poll(() => start.isDisabled()).toBe(false)
  await start.press('Enter')
  await expect
    .poll(() => page.evaluate(() => document.activeElement?.textContent), { timeout: 15_000 })
    .toMatch(/^It runs, as is kept in the ledger/)
  expect(faults).toEqual([])
  await page.close()
}, 180_000)

test('of a print with two tools one reel may have run dry', async () => {
  const server = await bench()
  const { page } = await open(server, '/')
  await give(page, join(server.prints, 'two-tool-part.gcode'))
  await page.getByRole('button', { name: /^Start it on .* and / }).click()
  const running = page.getByRole('region', { name: 'Running' })
  await running.getByRole('button', { name: 'Failed' }).click()
  await running.getByLabel(/Last layer it reached/).fill('20')
  const dry = running.getByRole('checkbox')
  expect(await dry.count()).toBe(2)
  await dry.nth(1).check()
  const posted = page.waitForRequest(/\/api\/draws$/)
  await running.getByRole('button', { name: 'Write it down' }).click()
  const { reels } = (await posted).postDataJSON()
  expect(reels.map((one: { ran_dry?: boolean }) => one.ran_dry)).toEqual([undefined, true])
  await page.close()
}, 90_000)

test('the time of the start goes with the clock until one is told', async () => {
  const server = await bench()
  const { page } = await open(server, '/')
  await give(page, join(server.prints, 'knob.gcode'))
  const started = page.getByLabel('Start of the print')
  const before = await started.inputValue()
  expect(before).toMatch(/^\d\d:\d\d$/)
  /** Turns the page's clock on. */
  const turnOn = (hours: number): Promise<void> =>
    page.evaluate((more) => {
      const real = Date.now
      Date.now = () => real() + 3_600_000 * more
    }, hours)
  /** Whether the field shows what the page's clock does. */
  const isOnTime = (): Promise<boolean> =>
    started.evaluate(
      (field) =>
        (field as HTMLInputElement).value === new Date(Date.now()).toTimeString().slice(0, 5),
    )
  await turnOn(2)
  expect(await isOnTime()).toBe(false)
  await expect.poll(isOnTime, { timeout: 20_000 }).toBe(true)
  await started.fill('07:30')
  await turnOn(1)
  await page.waitForTimeout(7000)
  expect(await started.inputValue()).toBe('07:30')
  // Nothing is started while what was typed can not be read: the keys go there.
  await started.fill('06:06 PM')
  await page.getByRole('button', { name: /^Start it on/ }).press('Enter')
  await page.getByText(/06:06 PM/).waitFor()
  expect(await started.evaluate((field) => field === document.activeElement)).toBe(true)
  await page.close()
}, 90_000)

test('bench and check know of a print that is running', async () => {
  const server = await bench()
  const { page, faults } = await open(server, '/')
  await give(page, join(server.prints, 'tackle-box.gcode'), 'QX5BN')
  await page.getByLabel('Printer').selectOption({ label: 'the Gull' })
  await page.getByRole('button', { name: 'Start it on QX5BN' }).click()
  await page.getByText('loaded: tackle-box.gcode is running on it').waitFor()
  await page.goto(`${server.origin}/bench`)
  await page.getByLabel('Which reel? Its id, or words').fill('QX5BN')
  await page.getByRole('button', { name: /^QX5BN.*a print is running on it$/ }).click()
  const running = page.getByRole('region', { name: 'Running' })
  await running.getByText('What this took of QX5BN so far').waitFor()
  expect(await barriers(page)).toEqual([])
  await running.getByRole('button', { name: 'Finished' }).click()
  await running.getByText('Written down as finished.').waitFor()
  await running.getByText('What this took of QX5BN so far').waitFor({ state: 'detached' })
  expect(draws(await showReel(server, 'QX5BN'))).toBe(9)
  // A reel that nothing runs on is weighed as ever.
  await page.goto(`${server.origin}/bench?reel=REYRT`)
  await page.getByLabel('The scale shows').waitFor()
  expect(await running.count()).toBe(0)
  expect(faults).toEqual([])
  await page.close()
}, 90_000)

test('another printer may be chosen while the answer is held up, and where there is none', async () => {
  const server = await bench()
  // The last by its name: the first is asked about before any is chosen.
  const added = await fetch(`${server.origin}/api/rows/printer`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ name: 'the Wherry', motion: { print_accel_mm_per_s2: 50 } }),
  })
  expect(added.status).toBe(201)
  const { page } = await open(server, '/')
  await give(page, join(server.prints, 'tackle-box.gcode'), 'QX5BN')
  const printer = page.getByLabel('Printer')
  const takes = page.getByText(/^The print takes about/)
  await takes.waitFor()
  await printer.selectOption({ label: 'the Gull' })
  const byGull = await flat(takes)
  // The times that are there are of the printer before, and are not told as those of this one.
  const held = Promise.withResolvers<void>()
  const asked = '**/api/checks/reels'
  await page.route(asked, async (route) => {
    await held.promise
    await route.continue()
  })
  await printer.selectOption({ label: 'the Wherry' })
  await page.getByText('Its times are not planned for this printer yet.').waitFor()
  expect(await takes.count()).toBe(0)
  held.resolve()
  await takes.waitFor()
  expect(await flat(takes)).not.toBe(byGull)
  await page.unroute(asked)
  // Refused for one printer, it may be made on another.
  await page.route(asked, (route) => route.fulfill({ status: 500, json: {} }))
  await printer.selectOption({ label: 'the Pair' })
  await page.getByRole('alert').waitFor()
  expect(await page.getByRole('button', { name: /^Start it/ }).isDisabled()).toBe(true)
  await page.unroute(asked)
  await printer.selectOption({ label: 'the Wherry' })
  await takes.waitFor()
  expect(await page.getByRole('button', { name: /^Start it/ }).isDisabled()).toBe(false)
  await page.close()
}, 90_000)

test.each(['America/New_York', 'Pacific/Auckland'])(
  'a day is that of the person: in %s',
  async (timezoneId) => {
    const { page } = await open(await bench(), '/reel/QX5BN', { timezoneId })
    await page.getByLabel('As it was at the end of').fill('2025-08-02')
    await page.getByText('As it was on 2025-08-02').waitFor()
    await page.close()
  },
  60_000,
)

test('what is started on one page is known on every other, and may be finished there', async () => {
  const server = await bench()
  const { page, faults } = await open(server, '/')
  // Another browser, as on a phone, which has never seen the file.
  const { page: phone, faults: others } = await open(server, '/', {
    viewport: { width: 390, height: 844 },
  })
  await give(page, join(server.prints, 'tackle-box.gcode'), 'REYRT')
  await page.getByLabel('Printer').selectOption({ label: 'the Gull' })
  // As it is told, so that the clock does not go on between.
  const now = await page.evaluate(() => new Date().toTimeString())
  await page.getByLabel('Start of the print').fill(now.slice(0, 5))
  const answer = await flat(page.getByRole('region', { name: 'Times' }))
  await page.getByRole('button', { name: 'Start it on REYRT' }).click()
  const there = phone.getByRole('region', { name: 'Running' })
  await there.getByText('tackle-box.gcode on REYRT').waitFor()
  // It says the same as the one that was told, and as the answer above it.
  const here = page.getByRole('region', { name: 'Running' })
  const row = here.getByRole('listitem')
  await expect
    .poll(async () => (await flat(there.getByRole('listitem'))) === (await flat(row)), {
      timeout: 15_000,
    })
    .toBe(true)
  const change = /The last safe change, [^.]*\./.exec(await flat(row))?.[0]
  expect(change).toContain('the end of layer ')
  expect(answer).toContain(change)
  const ends = /t ends (.*?\))/.exec(await flat(row))?.[1]
  expect(answer).toContain(`It ends ${ends}`)

  await there.getByRole('button', { name: 'Another reel took over' }).click()
  await there.getByLabel(/^After which layer/).fill('17')
  await there.getByRole('combobox', { name: 'Which reel went on?' }).fill('GQWGD')
  await phone.getByRole('option').first().click()
  await there.getByRole('button', { name: 'Keep it with the print' }).click()
  await here.getByText(/on REYRT, and after layer 17 on GQWGD/).waitFor()
  expect(await flat(row)).not.toContain('The last safe change')

  await there.getByRole('button', { name: 'Failed' }).click()
  await there.getByLabel(/Last layer it reached/).fill('30')
  await there.getByRole('button', { name: 'Write it down' }).click()
  await there.getByText('failed at layer 30').waitFor()
  await here.waitFor({ state: 'detached' })
  expect(draws(await showReel(server, 'GQWGD'))).toBeGreaterThan(0)
  expect([...faults, ...others]).toEqual([])
  await page.close()
  await phone.close()
}, 90_000)

test('what is finished twice is counted once', async () => {
  const server = await bench()
  const { page } = await open(server, '/')
  await give(page, join(server.prints, 'knob.gcode'), 'QX5BN')
  await page.getByRole('button', { name: 'Start it on QX5BN' }).click()
  const running = page.getByRole('region', { name: 'Running' })
  const finished = running.getByRole('button', { name: 'Finished' })
  await finished.waitFor()
  await expect
    .poll(() => page.evaluate(() => localStorage.getItem('reelreckon-running')), {
      timeout: 15_000,
    })
    .toBe('[]')
  // Another page that has not heard of it yet.
  const { page: other } = await open(server, '/')
  await other.getByRole('button', { name: 'Finished' }).waitFor()
  await other.route('**/api/running', (route) => route.abort())
  await finished.dblclick()
  await running.getByText('Written down as finished.').waitFor()
  const once = await showReel(server, 'QX5BN')
  expect(draws(once)).toBe(9)
  await other.getByRole('button', { name: 'Finished' }).click()
  await other.getByText(/nothing was counted twice/).waitFor()
  await other.close()
  const twice = await showReel(server, 'QX5BN')
  expect(draws(twice)).toBe(9)
  expect(twice.net_g).toEqual(once.net_g)
  await page.close()
}, 60_000)

test('what was recorded otherwise while it ran is asked about, and not counted twice', async () => {
  const server = await bench()
  const { page } = await open(server, '/')
  await give(page, join(server.prints, 'knob.gcode'), 'QX5BN')
  await page.getByLabel('Printer').selectOption({ label: 'the Gull' })
  await page.getByRole('button', { name: 'Start it on QX5BN' }).click()
  const running = page.getByRole('region', { name: 'Running' })
  const finished = running.getByRole('button', { name: 'Finished' })
  await finished.waitFor()
  await expect
    .poll(async () => (await (await fetch(`${server.origin}/api/running`)).json()).running.length)
    .toBe(1)
  const before = draws(await showReel(server, 'QX5BN'))
  const words = ['draw', join(server.prints, 'knob.gcode'), '--reel', 'QX5BN', '--printer']
  const drawn = runCli([...words, 'the Gull'], { env: { REELRECKON_DATA: server.data } })
  expect(drawn.out.replaceAll(/\s+/g, ' ')).toContain('if it was this one, say so where it runs')
  const another = running.getByRole('button', { name: 'It was another copy' })
  await finished.click()
  await running.getByText(/recorded from QX5BN already/).waitFor()
  expect(await another.isVisible()).toBe(true)
  expect(draws(await showReel(server, 'QX5BN'))).toBe(before + 1)
  await running.getByRole('button', { name: 'It was this one: take it off' }).click()
  await finished.waitFor({ state: 'detached' })
  const off = async () => (await (await fetch(`${server.origin}/api/running`)).json()).running
  await expect.poll(off).toEqual([])
  expect(draws(await showReel(server, 'QX5BN'))).toBe(before + 1)
  // It was another one after all.
  await page.getByRole('button', { name: 'Start it on QX5BN' }).click()
  await expect.poll(async () => (await off()).length).toBe(1)
  runCli([...words, 'the Gull'], { env: { REELRECKON_DATA: server.data } })
  await finished.click()
  await another.click()
  await running.getByText('Written down as finished.').waitFor()
  expect(draws(await showReel(server, 'QX5BN'))).toBe(before + 3)
  await page.close()
}, 60_000)

test('several run at a time, the printer is remembered, and one never ran', async () => {
  const server = await bench()
  const { page } = await open(server, '/')
  await give(page, join(server.prints, 'knob.gcode'), 'QX5BN')
  await page.getByLabel('Printer').selectOption({ label: 'the Skiff' })
  await page.getByRole('button', { name: 'Start it on QX5BN' }).click()
  const running = page.getByRole('region', { name: 'Running' })
  await running.getByText('knob.gcode on QX5BN').waitFor()
  await give(page, join(server.prints, 'two-tool-part.gcode'))
  expect(await page.getByLabel('Printer').locator('option:checked').textContent()).toBe('the Skiff')
  await page.getByRole('button', { name: /^Start it on .* and / }).click()
  await running.getByText(/two-tool-part\.gcode on \w+ and \w+/).waitFor()
  await page.reload()
  await running.getByRole('listitem').nth(1).waitFor()
  expect(await running.getByRole('listitem').count()).toBe(2)
  await running.getByRole('button', { name: 'It never ran' }).first().click()
  expect(await running.getByRole('listitem').count()).toBe(1)
  await running.getByRole('button', { name: 'Finished' }).click()
  await running.getByText('Written down as finished.').waitFor()
  expect(await running.getByText('→').count()).toBe(2)
  await page.close()
}, 60_000)

test('reels that were changed in a print, and a weighing before its end was told', async () => {
  const server = await bench()
  const { page } = await open(server, '/')
  const focused = (): Promise<string | null | undefined> =>
    page.evaluate(() => document.activeElement?.textContent)
  await give(page, join(server.prints, 'tackle-box.gcode'), 'QX5BN')
  // A browser that is full says so at once, where it alone knows of the print.
  await page.route('**/api/running', (route) =>
    route.request().method() === 'POST' ? route.abort() : route.continue(),
  )
  await page.evaluate(() => {
    Storage.prototype.setItem = () => {
      throw new Error('full')
    }
  })
  await page.getByLabel('Start of the print').fill('00:00')
  await page.getByRole('button', { name: 'Start it on QX5BN' }).press('Enter')
  const running = page.getByRole('region', { name: 'Running' })
  await running.getByText(/^This browser refuses to keep/).waitFor()
  await running.getByText(/(since|to start) .*00:00/).waitFor()
  expect(await focused()).toMatch(/^This browser refuses/)
  await running.getByRole('button', { name: 'It never ran' }).press('Enter')
  await expect.poll(focused).toContain('tackle-box.gcode')
  await page.unroute('**/api/running')
  await page.reload()
  await give(page, join(server.prints, 'tackle-box.gcode'), 'QX5BN')
  // What is weighed in the minute of the start came before it.
  const earlier = await page.evaluate(() => new Date(Date.now() - 120_000).toTimeString())
  await page.getByLabel('Start of the print').fill(earlier.slice(0, 5))
  await page.getByRole('button', { name: 'Start it on QX5BN' }).press('Enter')
  await running.getByRole('button', { name: 'Another reel took over' }).press('Enter')
  const after = running.getByLabel(/^After which layer/)
  await after.fill('9999')
  await after.press('Enter')
  await running.getByText(/^A whole number from 1 to/).waitFor()
  await after.fill('17')
  await running.getByRole('combobox', { name: 'Which reel went on?' }).fill('GQWGD')
  await page.getByRole('option').first().click()
  await running.getByRole('button', { name: 'Keep it with the print' }).press('Enter')
  await running.getByText(/tackle-box\.gcode on QX5BN, and after layer 17 on GQWGD/).waitFor()
  await running.getByRole('button', { name: 'Failed' }).press('Enter')
  const layer = running.getByLabel(/Last layer it reached/)
  await layer.fill('9999')
  await layer.press('Enter')
  await running.getByText(/^A whole number from 1 to/).waitFor()
  await running.getByRole('button', { name: 'Back' }).press('Enter')
  const env = { REELRECKON_DATA: server.data }
  const weighed = runCli(['weigh', 'QX5BN', '400g', '--accept', '--scale', 'kitchen scale'], {
    env,
  })
  expect(weighed.err).toBe('')
  await running.getByRole('button', { name: 'Finished' }).press('Enter')
  await running.getByText(/QX5BN was weighed \(400/).waitFor()
  const posted = page.waitForRequest(/\/api\/draws$/)
  await running.getByRole('button', { name: 'It ended after that weighing' }).press('Enter')
  expect((await posted).postDataJSON().reels).toEqual([
    { tool: 0, reel: 'QX5BN' },
    { tool: 0, reel: 'GQWGD', after_layer: 17 },
  ])
  await running.getByText('Written down as finished.').waitFor()
  expect(await focused()).toContain('Written down as finished.')
  const what = async (reel: string) =>
    (await showReel(server, reel)).facts.findLast(({ voided }) => voided === null)?.what
  expect(await what('QX5BN')).toContain('to the end of layer 17')
  expect(await what('GQWGD')).toContain('from layer 18 on')
  // The first part was shorter: put right with the layer, in its place.
  await running.getByRole('button', { name: 'Put right: tackle-box.gcode on GQWGD' }).press('Enter')
  await running.getByText('it stopped before its end', { exact: true }).click()
  await running.getByLabel('Last layer it reached').fill('20')
  const reason = running.getByLabel('Why it does not hold')
  await reason.press('Enter')
  await expect.poll(() => reason.evaluate((field) => field === document.activeElement)).toBe(true)
  await reason.fill('it failed')
  await reason.press('Enter')
  await expect.poll(() => what('GQWGD'), { timeout: 15_000 }).toContain('stopped in layer 20')
  await running.getByRole('button', { name: 'Done' }).first().press('Enter')
  await expect.poll(focused).toContain('tackle-box.gcode')
  await page.close()
}, 180_000)

describe('a weighing', () => {
  test('settles a close call, and is kept', async () => {
    const server = await bench()
    const { prints, origin, data } = server
    // A print that failed nobody knows where, and the reel holds about what the next one needs.
    const drew = runCli(
      'draw --reel GQWGD --stopped-at'
        .split(' ')
        .concat('share=60 ± 7 %', '--printer', 'the Gull', join(prints, 'tackle-box.gcode')),
      { env: { REELRECKON_DATA: data } },
    )
    if (drew.exit !== 0) throw new Error(drew.err)
    const { page, faults } = await open(server, '/')
    await give(page, join(prints, 'vase.gcode'), 'GQWGD')
    const answer = page.getByRole('region', { name: 'The answer' })
    await answer.getByText('close', { exact: true }).first().waitFor()
    const before = await showReel(server, 'GQWGD')
    expect(before.net_g?.u).toBeGreaterThan(5)
    const gross = Math.round((before.tare_g?.value ?? 0) + (before.net_g?.value ?? 0) + 12)
    await page.getByLabel('Weigh reel GQWGD').fill(`${gross} g`)
    await answer.getByText('enough', { exact: true }).waitFor()
    // Supposed so far: nothing is written down.
    expect((await showReel(server, 'GQWGD')).facts.length).toBe(before.facts.length)
    await page.getByRole('button', { name: 'Keep this weighing' }).click()
    await page.getByText('The weighing is written down.').waitFor()
    await answer.getByText('enough', { exact: true }).waitFor()
    const after = await showReel(server, 'GQWGD')
    expect(after.facts.length).toBe(before.facts.length + 1)
    expect(after.net_g?.u).toBeLessThan(3)
    expect(after.working?.weighings[0]?.reading_g).toBe(gross)
    expect(await flat(answer)).toContain(shown(after.net_g ?? { value: 0, u: 0 }))
    expect(origin).toContain('127.0.0.1')
    expect(faults).toEqual([])
    await page.close()
  }, 90_000)

  test('heeds what else stands on the scale, while it is typed and when it is kept', async () => {
    const server = await bench()
    const { page, faults } = await open(server, '/')
    await give(page, join(server.prints, 'tackle-box.gcode'), 'REYRT')
    const line = page.getByRole('region', { name: 'The answer' })
    await page.getByLabel('Weigh reel REYRT').fill('460')
    // The answer moves what stands below it.
    await line
      .getByText(/the weighing of 460\sg/)
      .first()
      .waitFor()
    const beside = page.waitForRequest(
      (one) => one.url().endsWith('/api/checks/reels') && /extra_g/.test(one.postData() ?? ''),
    )
    await line.getByRole('button', { name: 'Something else stands on it' }).first().click()
    // Before it is known how much that is the reading is not the reel's: nothing is judged by it.
    const whole = line.getByText(/the weighing of 460\sg/)
    await expect.poll(() => whole.count()).toBe(0)
    await line.getByLabel('What else stands on the scale').fill('38')
    const [supposed] = (await beside).postDataJSON().reels
    expect(supposed.weighing).toMatchObject({ reading_g: 460, extra_g: { value: 38 } })
    expect(await barriers(page)).toEqual([])
    // What can not be read is not left out in silence, neither of the verdict nor of what is kept.
    await line.getByLabel('What else stands on the scale').fill('38 stone')
    // As long as it takes to ask, and to be answered.
    await page.waitForTimeout(1000)
    expect(await whole.count()).toBe(0)
    await page.getByRole('button', { name: 'Keep this weighing' }).click()
    await page.getByText(/"stone" is not a unit of mass/).waitFor()
    await line.getByLabel('What else stands on the scale').fill('38')
    await page.getByRole('button', { name: 'Keep this weighing' }).click()
    await page.getByText('The weighing is written down.').waitFor()
    const { facts } = await showReel(server, 'REYRT')
    const last = facts.findLast(({ kind }) => kind === 'weighed')
    expect(last?.what).toMatch(/^weighed 460\sg.*, of which 38/)
    // The next one begins with nothing beside it.
    expect(await line.getByLabel('What else stands on the scale').count()).toBe(0)
    expect(faults).toEqual([])
    await page.close()
  }, 60_000)

  test('of an empty carrier settles what a weighing can not, and is kept', async () => {
    const server = await bench()
    const post = async <T>(path: string, body: object): Promise<T> => {
      const response = await fetch(`${server.origin}/api/${path}`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify(body),
      })
      if (!response.ok) throw new Error(await response.text())
      return response.json() as Promise<T>
    }
    const arrived = await post<RecordedJson>('reels', {
      make: { name: 'Fulmar PLA', maker: 'Fulmar', material: 'PLA' },
      label_net_g: 1000,
      part_used: true,
    })
    const { reel } = arrived.reels[0]!
    const { tare_g: tare } = await showReel(server, reel)
    const { page, faults } = await open(server, '/')
    const told = page.waitForResponse((one) => one.url().endsWith('/api/checks/shelf'))
    await give(page, join(server.prints, 'vase.gcode'))
    const { tools } = (await (await told).json()) as ShelfCheckJson
    const needed = (tools[0]!.needed_mm / 1000) * 2.98
    // The carrier is not known: the reel may hold enough, or too little.
    const reading_g = Math.round((tare?.value ?? 0) + needed + 10)
    await post('weighings', { reel, weighing: { reading_g, scale: 'kitchen scale' }, accept: true })
    await ofAnyMaterial(page)
    await page
      .locator('summary')
      .getByText(/more reels/)
      .click()
    await page.getByRole('button', { name: reel }).first().click()
    await page.getByRole('link', { name: `Reel ${reel}` }).waitFor()
    const answer = page.getByRole('region', { name: 'The answer' })
    const verdict = answer.getByRole('status').first()
    await verdict.getByText('close', { exact: true }).waitFor()
    const before = await showReel(server, reel)
    const field = answer.getByLabel(`an empty carrier of the make of ${reel}`)
    await field.fill(`${Math.round((tare?.value ?? 0) - 30)} g`)
    await verdict.getByText('enough', { exact: true }).waitFor()
    expect(await barriers(page)).toEqual([])
    // What else stands on the scale goes with it.
    const way = page.locator('details', {
      has: page.getByLabel(`an empty carrier of the make of ${reel}`),
    })
    await way.getByRole('button', { name: 'Something else stands on it' }).click()
    const held = page.waitForRequest(
      (one) => one.url().endsWith('/api/checks/reels') && /extra_g/.test(one.postData() ?? ''),
    )
    await way.getByLabel('What else stands on the scale').fill('90')
    const [{ empty_carrier: carrier }] = (await held).postDataJSON().reels
    expect(carrier).toMatchObject({ extra_g: { value: 90 } })
    await way.getByLabel('What else stands on the scale').fill('')
    await verdict.getByText('enough', { exact: true }).waitFor()
    // It can be changed while it is only supposed, and nothing is written down.
    await field.fill(`${Math.round((tare?.value ?? 0) + 60)} g`)
    await verdict.getByText('short', { exact: true }).waitFor()
    expect((await showReel(server, reel)).tare_g).toEqual(before.tare_g)
    await field.fill(`${Math.round((tare?.value ?? 0) - 30)} g`)
    await verdict.getByText('enough', { exact: true }).waitFor()
    await answer.getByRole('button', { name: 'Keep this carrier' }).click()
    await answer.getByText('The measurement is written down.').waitFor()
    await verdict.getByText('enough', { exact: true }).waitFor()
    const after = await showReel(server, reel)
    expect(after.tare_g?.u).toBeLessThan((before.tare_g?.u ?? 0) / 2)
    expect(faults).toEqual([])
    await page.close()
  }, 90_000)

  test('is asked of and kept as coarse as it was typed', async () => {
    const server = await bench()
    const { page } = await open(server, '/')
    await give(page, join(server.prints, 'tackle-box.gcode'), 'REYRT')
    const asked = page.waitForRequest(
      (one) =>
        one.url().endsWith('/api/checks/reels') && (one.postData() ?? '').includes('reading_g'),
    )
    await page.getByLabel('Weigh reel REYRT').fill('0.4 kg')
    const [supposed] = (await asked).postDataJSON().reels
    expect(supposed.weighing).toMatchObject({ reading_g: 400, last_place_g: 100 })
    expect(supposed.weighing.scale).toMatch(/^\w{5}$/)
    await page.getByRole('button', { name: 'Keep this weighing' }).click()
    await page.getByText('The weighing is written down.').waitFor()
    const { facts } = await showReel(server, 'REYRT')
    expect(facts.findLast(({ kind }) => kind === 'weighed')?.what).toMatch(/400 ± 29/)
    await page.close()
  }, 60_000)

  test('that can not be sent yet waits, and the field is free for the next', async () => {
    const server = await bench()
    const { page } = await open(server, '/')
    await give(page, join(server.prints, 'tackle-box.gcode'), 'REYRT')
    const before = await showReel(server, 'REYRT')
    const ids: string[] = []
    let isOut = true
    await page.route('**/api/weighings', async (route) => {
      ids.push(route.request().postDataJSON().id)
      return isOut ? route.abort() : route.continue()
    })
    const field = page.getByLabel('Weigh reel REYRT')
    for (const typed of ['422', '423']) {
      // oxlint-disable no-await-in-loop -- one weighing after the other
      await field.fill(typed)
      await page.getByRole('button', { name: 'Keep this weighing' }).click()
      await page.getByRole('status').getByText('The weighing is sent when it can.').waitFor()
      expect(await field.inputValue()).toBe('')
      // oxlint-enable no-await-in-loop
    }
    await page.getByText('2 weighings wait here for the server.').waitFor()
    expect(new Set(ids).size).toBe(2)
    isOut = false
    await expect
      .poll(async () => (await showReel(server, 'REYRT')).facts.length, { timeout: 20_000 })
      .toBe(before.facts.length + 2)
    await page.close()
  }, 60_000)

  test('that surprises is held back with its causes, left out, and taken', async () => {
    const server = await bench()
    const { page } = await open(server, '/')
    await give(page, join(server.prints, 'tackle-box.gcode'), 'REYRT')
    const before = await showReel(server, 'REYRT')
    const weigh = page.getByLabel('Weigh reel REYRT')
    const answer = page.getByRole('region', { name: 'The answer' }).locator('dl').first()
    const unweighed = await flat(answer)
    await weigh.fill('550')
    await expect.poll(() => flat(answer), { timeout: 15_000 }).not.toBe(unweighed)
    await page.getByRole('button', { name: 'Keep this weighing' }).click()
    const surprise = page.getByRole('alert')
    await surprise
      .getByText(/The scale shows 550\sg, where 42\d(\.\d)?\s±\s[\d.]+\sg was expected/)
      .waitFor()
    await surprise.getByText(/Something else stood on the scale/).waitFor()
    expect(await barriers(page)).toEqual([])
    await surprise.getByRole('button', { name: 'Leave it out' }).click()
    await surprise.waitFor({ state: 'detached' })
    expect((await showReel(server, 'REYRT')).facts.length).toBe(before.facts.length)
    // Nothing of it stays, in the field or in the answer.
    expect(await weigh.inputValue()).toBe('')
    await expect.poll(() => flat(answer), { timeout: 15_000 }).toBe(unweighed)
    // As many ounces as would be grams.
    await weigh.fill('14.88')
    await page.getByRole('button', { name: 'Keep this weighing' }).click()
    await surprise.getByRole('button', { name: 'It was 421.8 g' }).click()
    await page.getByText('The weighing is written down.').waitFor()
    const after = await showReel(server, 'REYRT')
    expect(after.facts.length).toBe(before.facts.length + 1)
    expect(after.working?.weighings[0]?.reading_g).toBeCloseTo(421.84, 1)
    await weigh.fill('550')
    await page.getByRole('button', { name: 'Keep this weighing' }).click()
    await surprise.getByRole('button', { name: 'Take it as it is' }).click()
    await surprise.waitFor({ state: 'detached' })
    const taken = await showReel(server, 'REYRT')
    expect(taken.facts.length).toBe(before.facts.length + 2)
    expect(taken.working?.weighings[0]?.reading_g).toBe(550)
    await page.close()
  }, 90_000)
})

test('a reel beyond the hundred that are listed is found by its words, and taken', async () => {
  const server = await bench()
  const added = await fetch(`${server.origin}/api/reels`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({
      make: { name: 'Fulmar PLA', maker: 'Fulmar', material: 'PLA' },
      label_net_g: 1000,
      count: 100,
    }),
  })
  expect(added.status).toBe(201)
  const { page, faults } = await open(server, '/')
  const told = page.waitForResponse((one) => one.url().endsWith('/api/checks/shelf'))
  await give(page, join(server.prints, 'tackle-box.gcode'))
  const listed = (await (await told).json()) as ShelfCheckJson
  const ofTool = listed.tools[0]!
  expect(ofTool.reels).toHaveLength(100)
  expect(ofTool.reels.map(({ reel }) => reel.id)).not.toContain('REYRT')
  await page.getByText('The first 100 are listed.').waitFor()
  await page.getByRole('radio', { name: 'close' }).check({ force: true })
  const count = ofTool.close === 1 ? 'One reel of all' : `${ofTool.close} reels of all`
  await page.getByText(count).waitFor()
  expect(await barriers(page)).toEqual([])
  await page.getByRole('radio', { name: 'all', exact: true }).check({ force: true })
  await page.getByLabel('Find a reel').fill('reyrt')
  await page.getByText('One reel of all that fit').waitFor()
  await page.getByRole('button', { name: 'REYRT' }).first().click()
  await page.getByRole('link', { name: 'Reel REYRT' }).waitFor()
  const { reel } = await showReel(server, 'REYRT')
  const answer = page.getByRole('region', { name: 'The answer' })
  expect(await flat(answer)).toContain(reel.colour ?? 'no colour')
  await page.getByLabel('Find a reel').fill('no such words')
  await page.getByText('No reel of all that fit').waitFor()
  expect(faults).toEqual([])
  await page.close()
}, 90_000)

test('a reel that is short is changed at a layer for one that lasts for the rest', async () => {
  const server = await bench()
  const { page } = await open(server, '/')
  // Of a large shelf the server lists so many: it is asked for this material alone.
  const asked = page.waitForRequest(
    (one) =>
      one.url().endsWith('/api/checks/shelf') && (one.postData() ?? '').includes('after_layer'),
  )
  await give(page, join(server.prints, 'tackle-box.gcode'), 'REYRT')
  const { reel: of } = await showReel(server, 'REYRT')
  expect((await asked).postDataJSON()).toMatchObject({ material: of.material })
  const changing = page.getByRole('region', { name: 'Changing reels' })
  await changing.getByText(/Change before layer \d+, at [\d.]+\smm.*, then on with \w{5}/).waitFor()
  const said = await flat(changing)
  const [, layer = '', reel = ''] = /layer (\d+),.*on with (\w{5})/.exec(said) ?? []
  const print = (await (await fetch(`${server.origin}/api/prints`)).json()).prints[0].id
  const rest = await fetch(`${server.origin}/api/checks/reels`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ print, after_layer: Number(layer) - 1, reels: [{ reel }] }),
  })
  const { verdict, needed_mm: needed } = await rest.json()
  expect(verdict).toBe('enough')
  expect(needed.value).toBeGreaterThan(0)
  expect(needed.value).toBeLessThan(48_629)
  expect(said).toContain('Stay with it')
  await page.close()
}, 60_000)

describe('the sheet of a reel', () => {
  test('draws its life, shows it as it was, and puts a fact right', async () => {
    const server = await bench()
    const { page, faults } = await open(server, '/reel/QX5BN')
    await page.locator('canvas').waitFor()
    const now = await showReel(server, 'QX5BN')
    await page.getByText(/and holds .* now: 2 weighings, 8 prints/).waitFor()
    await page.getByText('As a table').click()
    expect(await page.getByRole('table').last().getByRole('row').count()).toBe(12)
    const figures = page.getByRole('table').first()
    expect(await flat(figures)).toContain('paid for it21.90 EUR')
    // As it was.
    await page.getByLabel('As it was at the end of').fill('2025-05-15')
    await page.getByText('As it was on 2025-05-15').waitFor()
    const at = new Date('2025-05-15T23:59:59.999').toISOString()
    const then = await (await fetch(`${server.origin}/api/reels/QX5BN?at=${at}`)).json()
    await expect.poll(() => flat(figures)).toContain(`net${shown(then.net_g)}`)
    await page.getByRole('button', { name: 'Back to now' }).click()
    await expect.poll(() => flat(figures)).toContain(`net${shown(now.net_g ?? { value: 0, u: 0 })}`)
    // The latest print never was.
    const wrong = now.facts.findLast(({ kind }) => kind === 'drew')?.id ?? ''
    await page
      .getByRole('button', { name: /^Put right: fed 48\.63 m/ })
      .first()
      .click()
    await page.getByLabel('Why it does not hold').fill('written down twice')
    await page.getByRole('form').getByRole('button', { name: 'Write it down' }).click()
    await page.getByText('does not hold: written down twice').waitFor()
    const told = runCli(['put-right', wrong, '--reason', 'written down twice', '--json'], {
      env: ledgerBeside(server),
    })
    const json: RecordedJson = JSON.parse(told.out)
    expect(await flat(page.getByRole('main'))).toContain(changeOf(json))
    await page.getByText(/now: 2 weighings, 7 prints/).waitFor()
    // And yet it was.
    await page.getByRole('button', { name: 'Done' }).click()
    await page.getByRole('button', { name: /^It holds after all/ }).click()
    await page.getByLabel('Why it does not hold').fill('it was another')
    await page.getByRole('form').getByRole('button', { name: 'Write it down' }).click()
    await page.getByText(/now: 2 weighings, 8 prints/).waitFor()
    expect(faults).toEqual([])
    await page.close()
  }, 90_000)

  test('says what its figures rest on, what of it is gone, and what to measure next', async () => {
    const server = await bench()
    const { page } = await open(server, '/reel/QX5BN')
    const { cost, next, working } = await showReel(server, 'QX5BN')
    if (cost === null || next === null) throw new Error('nothing to say')
    const rowOf = (name: string): Promise<string> =>
      flat(
        page
          .getByRole('table')
          .first()
          .getByRole('row', { name: new RegExp(`^${name} `) }),
      )
    await page.getByRole('rowheader', { name: 'net', exact: true }).waitFor()
    expect(await rowOf('net')).toMatch(
      /weighed 2025-08-02, .* ago, at 1064 g; 2 prints since, 53\.54 m$/,
    )
    const guessed = working?.rests.find(({ id }) => id === 'diameter')
    expect(guessed?.guessed).toBe(true)
    expect(await rowOf('diameter')).toContain('guessed: usual for its nominal diameter')
    expect(await rowOf('tare')).not.toContain('guessed')
    const { value, u } = cost.gone
    expect(await rowOf('of that, gone')).toContain(
      formatMeasured({ value, u: Math.max(u, 0.01) }, 'EUR'),
    )
    const better = await flat(page.getByText('To know it better:').locator('..'))
    expect(better).toContain(`${next.instruction} ${next.effort_min} min; then the net is known to`)
    expect(better).toMatch(/known to ± \d+ g and the length to ± [\d.]+ m\./)
    await page.close()
  }, 60_000)

  test('shows no figures of another moment under the day that was asked for', async () => {
    const server = await bench()
    const { page } = await open(server, '/reel/QX5BN')
    const net = page.getByRole('rowheader', { name: 'net', exact: true })
    await net.waitFor()
    const answered = Promise.withResolvers<void>()
    await page.route('**/api/reels/QX5BN?at=*', async (route) => {
      await answered.promise
      return route.continue()
    })
    await page.getByLabel('As it was at the end of').fill('2025-05-15')
    await page.getByText('As it was on 2025-05-15').waitFor()
    await net.waitFor({ state: 'hidden' })
    expect(await net.count()).toBe(0)
    answered.resolve()
    await net.waitFor()
    await page.close()
  }, 60_000)

  test('of one reel nothing stays at the next, and the keys go on at the sheet', async () => {
    const server = await bench()
    const { page } = await open(server, '/reel/QX5BN')
    const at = (): Promise<string | null | undefined> =>
      page.evaluate(() => document.activeElement?.getAttribute('aria-label'))
    await page.getByLabel('As it was at the end of').fill('2025-05-15')
    await page.getByText('As it was on 2025-05-15').waitFor()
    await page.getByLabel('Where it stands now').fill('boathouse')
    await page.getByRole('link', { name: 'Shelf' }).press('Enter')
    await page.getByText('12 reels').first().waitFor()
    expect(await at()).toBe('Shelf')
    await page.locator('a[href="/reel/HA83A"]').first().click()
    await page.getByRole('heading', { name: 'Reel HA83A' }).waitFor()
    expect(await at()).toBe('Reel HA83A')
    await page.evaluate(() => history.go(-2))
    await page.getByRole('heading', { name: 'Reel QX5BN' }).waitFor()
    await page.getByLabel('As it was at the end of').fill('2025-05-15')
    await page.getByLabel('Where it stands now').fill('boathouse')
    await page.evaluate(() => history.go(2))
    await page.getByRole('heading', { name: 'Reel HA83A' }).waitFor()
    const place = page.getByLabel('Where it stands now')
    await place.waitFor()
    expect(await place.inputValue()).toBe('')
    expect(await page.getByText('As it was on 2025-05-15').count()).toBe(0)
    await page.close()
  }, 60_000)

  test('puts a weighing right with another figure, and holds back one that surprises', async () => {
    const server = await bench()
    const { page } = await open(server, '/reel/QX5BN')
    await page.getByRole('button', { name: /^Put right: weighed 1064 g/ }).click()
    const form = page.getByRole('form')
    await form.getByLabel('The right mass').fill('1065')
    await form.getByLabel('Why it does not hold').fill('misread')
    await form.getByRole('button', { name: 'Write it down' }).click()
    await page.getByRole('button', { name: 'Done' }).click()
    await page
      .locator('ol')
      .getByText(/^weighed 1065\sg/)
      .first()
      .waitFor()
    // A figure far off is held back first.
    await page.getByRole('button', { name: /^Put right: weighed 1065 g/ }).click()
    await form.getByLabel('The right mass').fill('700')
    await form.getByLabel('Why it does not hold').fill('misread again')
    await form.getByRole('button', { name: 'Write it down' }).click()
    await form.getByText('The weighing does not agree').waitFor()
    await form.getByRole('button', { name: 'Leave it', exact: true }).click()
    expect((await showReel(server, 'QX5BN')).facts.some(({ what }) => what.includes('700'))).toBe(
      false,
    )
    // So is what stood beside it; a little agrees, and that nothing did takes it back.
    const beside = async (mass: string): Promise<void> => {
      await page.getByRole('button', { name: /^Put right: weighed 1065 g/ }).click()
      await form.getByText('what stood beside it', { exact: true }).click()
      await form.getByLabel('What else stood on the scale').fill(mass)
      await form.getByLabel('Why it does not hold').fill('the holder')
      await form.getByRole('button', { name: 'Write it down' }).click()
    }
    const said = page.locator('ol').getByText(/^weighed 1065\sg.* is something else/)
    await beside('300')
    await form.getByText('The weighing does not agree').waitFor()
    await form.getByRole('button', { name: 'Leave it', exact: true }).click()
    expect(await said.count()).toBe(0)
    await beside('1')
    await page.getByRole('button', { name: 'Done' }).click()
    await said.waitFor()
    await beside('0')
    await page.getByRole('button', { name: 'Done' }).click()
    await page.locator('s', { hasText: 'is something else' }).waitFor()
    await page.close()
  }, 60_000)

  test('says which weighing everything else contradicts, in the unit chosen, and puts it right there', async () => {
    const server = await bench()
    // Written down elsewhere, so that nothing asked whether it can be.
    const lines = [
      { kind: 'reelreckon-ledger', format: 1, written_at: '2025-10-25T09:00:00.000Z' },
      {
        kind: 'weighed',
        id: 'A4FZT5R7F',
        at: '2025-06-15T12:00:00.000Z',
        recorded_at: '2025-10-25T09:00:00.000Z',
        reel: 'QX5BN',
        weighing: { scale: 'XGDS3', reading_g: 1264 },
      },
    ]
    const taken = await fetch(`${server.origin}/api/import`, {
      method: 'POST',
      headers: { 'content-type': 'application/x-ndjson' },
      body: lines.map((line) => JSON.stringify(line)).join('\n'),
    })
    expect(taken.ok).toBe(true)
    const { contradicted } = await showReel(server, 'QX5BN')
    expect(contradicted).toMatchObject({ fact: 'A4FZT5R7F', reading_g: 1264 })
    const { page } = await open(server, '/reel/QX5BN')
    const said = page.getByText(/^The weighing of .* contradicts the rest/)
    await said.waitFor()
    expect(await flat(said)).toContain(
      `The weighing of 2025-06-15, 1264 g, contradicts the rest, by which it is ${Math.round((contradicted?.off_g ?? 0) * 10) / 10} g more than it should be.`,
    )
    await page.evaluate(() => localStorage.setItem('reelreckon-unit', 'oz'))
    await page.reload()
    await page.getByText(/^The weighing of [-\d]+, [\d.]+\soz, contradicts/).waitFor()
    await page.getByRole('button', { name: 'Put right', exact: true }).click()
    await page.getByLabel('Why it does not hold').fill('misread')
    await page.getByText('it did not happen', { exact: true }).click()
    await page.getByRole('form').getByRole('button', { name: 'Write it down' }).click()
    await page.getByRole('button', { name: 'Done' }).click()
    await said.waitFor({ state: 'detached' })
    expect((await showReel(server, 'QX5BN')).contradicted).toBeNull()
    await page.close()
  }, 60_000)

  test('puts a print right that was fed from another reel', async () => {
    const server = await bench()
    const { page } = await open(server, '/reel/QX5BN')
    const before = draws(await showReel(server, 'HA83A'))
    await page
      .getByRole('button', { name: /^Put right: fed 48\.63 m/ })
      .first()
      .click()
    const form = page.getByRole('form')
    await form.getByText('another reel', { exact: true }).click()
    await form.getByRole('combobox', { name: 'The right reel' }).fill('oilskin')
    await page.getByRole('option', { name: /^HA83A/ }).click()
    await form.getByLabel('Why it does not hold').fill('it was the yellow one')
    await form.getByRole('button', { name: 'Write it down' }).click()
    await page.getByRole('button', { name: 'Done' }).waitFor()
    expect(draws(await showReel(server, 'QX5BN'))).toBe(7)
    expect(draws(await showReel(server, 'HA83A'))).toBe(before + 1)
    await page.close()
  }, 60_000)

  test('puts right what was paid for it, and nothing else of its opening', async () => {
    const server = await bench()
    const { page } = await open(server, '/reel/QX5BN')
    const before = await showReel(server, 'QX5BN')
    await page.getByRole('button', { name: /^Put right: opened/ }).click()
    const form = page.getByRole('form')
    await form.getByText('another price', { exact: true }).click()
    await form.getByLabel('What was paid for it').fill('18,50')
    await form.getByLabel('Currency, three letters').fill('EU')
    await form.getByText('Three letters, as EUR.').waitFor()
    await form.getByLabel('Currency, three letters').fill('eur')
    await form.getByLabel('Why it does not hold').fill('the bill came')
    await form.getByRole('button', { name: 'Write it down' }).click()
    await page.getByRole('button', { name: 'Done' }).waitFor()
    const after = await showReel(server, 'QX5BN')
    expect(after.cost?.paid).toEqual({ amount: '18.5', currency: 'EUR' })
    expect(after.net_g).toEqual(before.net_g)
    expect(after.reel).toEqual(before.reel)
    await page.close()
  }, 60_000)

  test('puts right that it came part-used, and how it looks', async () => {
    const server = await bench()
    const { page, faults } = await open(server, '/reel/QX5BN')
    const form = page.getByRole('form', { name: /^Put right/ })
    const put = async (right: string, fill: () => Promise<unknown>): Promise<void> => {
      await page.getByRole('button', { name: /^Put right: opened/ }).click()
      await form.getByText(right, { exact: true }).click()
      await fill()
      await form.getByLabel('Why it does not hold').fill('told wrongly')
      await form.getByRole('button', { name: 'Write it down' }).click()
      await page.getByRole('button', { name: 'Done' }).click()
    }
    await put('new or part-used', () => form.getByText('part-used', { exact: true }).click())
    await page.getByRole('button', { name: /^Put right: opened, part-used already/ }).waitFor()
    await put('another colour', () => form.getByLabel('The right colour').fill('fog white'))
    await page.getByRole('button', { name: /^Put right: opened, .*fog white/ }).waitFor()
    const { reel } = await showReel(server, 'QX5BN')
    expect(reel).toMatchObject({ colour: 'fog white', srgb: null })
    expect(faults).toEqual([])
    await page.close()
  }, 60_000)

  test('moves, dries, trims and retires it', async () => {
    const server = await bench()
    const { page } = await open(server, '/reel/QX5BN')
    const before = await showReel(server, 'QX5BN')
    const write = page.getByRole('button', { name: 'Write it down' })
    const done = page.getByRole('button', { name: 'Done' })
    await page.getByLabel('Where it stands now').fill('boathouse')
    await write.click()
    await done.click()
    await page.getByText('stands at: boathouse').waitFor()
    await page.getByText('dried', { exact: true }).click()
    await page.getByText('Surfaces, filament and carrier come out hot').waitFor()
    await page.getByLabel('Temperature').fill('45')
    await page.getByLabel('Hours').fill('6,5')
    await write.click()
    await done.click()
    await page.getByText('trimmed', { exact: true }).click()
    await page.getByLabel('Or its mass').fill('12 g')
    await write.click()
    await done.click()
    const trimmed = await showReel(server, 'QX5BN')
    expect(trimmed.net_g?.value).toBeCloseTo((before.net_g?.value ?? 0) - 12, 0)
    expect(trimmed.facts.map(({ kind }) => kind).slice(-3)).toEqual(['moved', 'dried', 'trimmed'])
    await page.getByText('retired', { exact: true }).click()
    await write.click()
    await page.getByText(/retired, stands/).waitFor()
    await page.close()
  }, 60_000)

  test('that it is gone is put right by keys, from the shelf, though it is the only reel', async () => {
    const server = await bench()
    const retire = async (reel: string): Promise<void> => {
      const told = await fetch(`${server.origin}/api/events`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ reel, event: { kind: 'retired' } }),
      })
      expect(told.status).toBe(201)
    }
    const inUse = async (): Promise<readonly string[]> => {
      const answer = await fetch(`${server.origin}/api/reels`)
      const { reels } = (await answer.json()) as ReelListJson
      return reels.map(({ reel }) => reel.id)
    }
    await retire('QX5BN')
    const { page, faults } = await open(server, '/shelf')
    const link = page.locator('a[href="/reel/QX5BN"]')
    await page.locator('a[href="/reel/HA83A"]').waitFor()
    expect(await link.count()).toBe(0)
    await tabTo(page, /^With those that are gone/)
    await page.keyboard.press('Space')
    await link.waitFor()
    expect(await flat(link)).toContain('retired')
    await page.getByText('list', { exact: true }).click()
    await page.getByRole('rowheader', { name: 'QX5BN retired' }).waitFor()
    // None is left: the choice is there all the same.
    // oxlint-disable-next-line no-await-in-loop -- one after another
    for (const reel of await inUse()) await retire(reel)
    await page.reload()
    await page.getByLabel('With those that are gone').waitFor()
    await tabTo(page, /^With those that are gone/)
    await page.keyboard.press('Space')
    await link.waitFor()
    await tabTo(page, /^QX5BN/)
    await page.keyboard.press('Enter')
    await page.getByRole('heading', { name: 'Reel QX5BN' }).waitFor()
    await page.getByRole('button', { name: /^Put right: left the shelf/ }).waitFor()
    await tabTo(page, /^Put right: left the shelf/)
    await page.keyboard.press('Enter')
    await page.getByLabel('Why it does not hold').fill('another reel')
    await page.keyboard.press('Enter')
    await page.getByRole('button', { name: 'Done' }).waitFor()
    expect(await inUse()).toEqual(['QX5BN'])
    expect(faults).toEqual([])
    await page.close()
  }, 90_000)
})

test('what is running, a failure and a reel bar nobody', async () => {
  const server = await bench()
  const { page, faults } = await open(server, '/')
  await give(page, join(server.prints, 'tackle-box.gcode'), 'GQWGD')
  await page.getByRole('button', { name: 'Start it on GQWGD' }).click()
  await page.getByRole('button', { name: 'Failed' }).click()
  await page.getByLabel(/Last layer it reached/).fill('40')
  expect(await byDayAndNight(page)).toEqual({ day: [], night: [] })
  await page.getByRole('button', { name: 'Back' }).click()
  // Most of the reel goes elsewhere meanwhile, so it can not have held this print: that is doubted.
  const elsewhere = 'draw --reel GQWGD --length 35m --printer'.split(' ').concat('the Gull')
  const drew = runCli(elsewhere, { env: { REELRECKON_DATA: server.data } })
  if (drew.exit !== 0) throw new Error(drew.err)
  await page.getByRole('button', { name: 'Finished' }).click()
  await page.getByRole('button', { name: 'Write it down all the same' }).waitFor()
  expect(await byDayAndNight(page)).toEqual({ day: [], night: [] })
  expect(faults.filter((fault) => !fault.includes('status of 4'))).toEqual([])
  await page.goto(`${server.origin}/reel/QX5BN`)
  await page.locator('canvas').waitFor()
  await page
    .getByRole('button', { name: /^Put right/ })
    .first()
    .click()
  await page.getByText('As a table').click()
  expect(await byDayAndNight(page)).toEqual({ day: [], night: [] })
  await page.close()
}, 90_000)

test('nothing is wider than a phone', async () => {
  const server = await bench()
  const { page } = await open(server, '/reel/QX5BN', { viewport: { width: 360, height: 740 } })
  const roomLeft = (): Promise<number> =>
    page.evaluate(() => document.documentElement.clientWidth - document.documentElement.scrollWidth)
  await page.locator('canvas').waitFor()
  await page
    .getByRole('button', { name: /^Put right/ })
    .first()
    .click()
  expect(await roomLeft()).toBe(0)
  await page.goto(server.origin)
  await give(page, join(server.prints, 'tackle-box.gcode'), 'REYRT')
  await page.getByLabel('Weigh reel REYRT').fill('550')
  await page.getByRole('button', { name: 'Keep this weighing' }).click()
  await page.getByRole('button', { name: 'Take it as it is' }).waitFor()
  await page.getByRole('button', { name: 'Start it on REYRT' }).click()
  await page.getByRole('button', { name: 'Failed' }).click()
  expect(await roomLeft()).toBe(0)
  await page.close()
}, 60_000)
