import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type { FileChooser, Page } from 'playwright-core'
import { keptApp } from './kept-app.ts'
import type { ServedApp } from './serve-app.ts'

/** A sheet, and how it is brought about. */
export interface Screen {
  readonly name: string
  readonly path: string
  /** The bench unless given; `own` is a bench of its own, as the sheet writes to it or ends it. */
  readonly on?: 'bench' | 'empty' | '300' | 'own' | 'locked'
  readonly act?: (page: Page, server: ServedApp) => Promise<unknown>
}

type Given = Parameters<FileChooser['setFiles']>[0]

const give = async (page: Page, file: Given, press = 'Choose a print file'): Promise<void> => {
  const chooser = page.waitForEvent('filechooser')
  await page.getByRole('button', { name: press }).click()
  await (await chooser).setFiles(file)
}

/** A file of a few lines, as a person may have it. */
const written = (name: string, text: string): Given => ({
  name,
  mimeType: 'text/plain',
  buffer: Buffer.from(text),
})

/** Lines that lay a usual bead with 2.85 mm filament, and half of one with 1.75 mm. */
const madeForOther = [
  'G90',
  'M83',
  ...Array.from(
    { length: 400 },
    (_, k) => `G1 X${20 * (k % 2)} Y${k % 40} Z${0.2 * (1 + Math.floor(k / 40))} E0.251`,
  ),
  '',
].join('\n')

const tableOfReels = `Product;Brand;Stuff;Label;On scale;Hue
Coastal;Kittiwake;PLA;1000 g;812 g;tar black
Coastal;Kittiwake;PLA;1000 g;heavy;foam
Coastal;Kittiwake;moonstone;1000 g;600 g;sand
`

/** The server is gone, and the page has seen it. */
const cutOff = async (page: Page, server: ServedApp): Promise<void> => {
  await server.end()
  await page.getByText('out of touch').waitFor()
}

const check =
  (file: string, reel: string | null = null) =>
  async (page: Page, { prints }: ServedApp): Promise<void> => {
    await give(page, join(prints, file))
    await page.getByRole('region', { name: 'The answer' }).waitFor()
    if (reel === null) return
    // It may be of another material than the slate has the print made of.
    await page.getByRole('radio', { name: 'any', exact: true }).check({ force: true })
    await page.getByRole('button', { name: reel }).first().click()
    await page.getByRole('link', { name: `Reel ${reel}` }).waitFor()
  }

const seeText =
  (text: string | RegExp) =>
  (page: Page): Promise<void> =>
    page.getByText(text).first().waitFor()

const seeHeading =
  (name: string) =>
  (page: Page): Promise<void> =>
    page.getByRole('heading', { name }).first().waitFor()

/** Types what the scale shows, once the sheet says what it expects. */
const weigh = async (page: Page, figure: string): Promise<void> => {
  await page.locator('svg text', { hasText: /^expected/ }).waitFor()
  await page.getByLabel('The scale shows').fill(figure)
}

/** Every sheet that is drawn and looked at. */
export const screens: readonly Screen[] = [
  { name: 'check-first', path: '/', on: 'empty', act: seeText('No reels yet.') },
  { name: 'check-empty', path: '/' },
  { name: 'check-enough', path: '/', act: check('tackle-box.gcode') },
  { name: 'check-close', path: '/', act: check('tackle-box.gcode', 'REYRT') },
  {
    name: 'check-rests',
    path: '/',
    act: async (page, server) => {
      await check('tackle-box.gcode', 'REYRT')(page, server)
      await page.getByText('What it rests on').click()
    },
  },
  { name: 'check-short', path: '/', act: check('tackle-box.gcode', 'QFMJY') },
  { name: 'check-tools', path: '/', act: check('two-tool-part.gcode') },
  {
    name: 'check-refused',
    path: '/',
    act: async (page, { prints }) => {
      writeFileSync(join(prints, 'letter.txt'), 'Dear Tilde, the reels have come.\n')
      await give(page, join(prints, 'letter.txt'))
      await page.getByRole('alert').waitFor()
    },
  },
  {
    name: 'check-error',
    path: '/',
    on: 'own',
    act: async (page, server) => {
      await check('tackle-box.gcode')(page, server)
      await cutOff(page, server)
      await page.getByRole('button', { name: 'REYRT' }).click()
      await page.getByRole('alert').waitFor()
    },
  },
  {
    name: 'check-running',
    path: '/',
    on: 'own',
    act: async (page, server) => {
      await check('tackle-box.gcode', 'QX5BN')(page, server)
      await page.getByRole('button', { name: 'Start it on QX5BN' }).click()
      await page.getByRole('button', { name: 'Failed' }).click()
      await page.getByLabel(/Last layer it reached/).fill('100')
      await page.getByText(/^ended at/).waitFor()
    },
  },
  {
    name: 'check-surprise',
    path: '/',
    act: async (page, server) => {
      await check('tackle-box.gcode', 'REYRT')(page, server)
      await page.getByLabel('Weigh reel REYRT').fill('550')
      await page.getByRole('button', { name: 'Keep this weighing' }).click()
      await page.getByRole('alert').waitFor()
    },
  },
  {
    name: 'check-reading',
    path: '/',
    act: async (page, { prints }) => {
      // The reader's own file is held back, so that it is seen at work.
      await page.route(/reading-worker/, () => {})
      await page.reload()
      await give(page, join(prints, 'tackle-box.gcode'))
      await page.getByRole('button', { name: 'Cancel' }).waitFor()
    },
  },
  {
    name: 'check-asks',
    path: '/',
    act: async (page) => {
      await give(page, written('bracket-2.85.gcode', madeForOther))
      await page.getByRole('region', { name: 'About the file' }).waitFor()
    },
  },
  {
    name: 'check-finished',
    path: '/',
    on: 'own',
    act: async (page, server) => {
      await check('tackle-box.gcode', 'QX5BN')(page, server)
      await page.getByRole('button', { name: 'Start it on QX5BN' }).click()
      await page.getByRole('button', { name: 'Finished' }).click()
      await page.getByRole('button', { name: 'Put right' }).waitFor()
    },
  },
  { name: 'shelf', path: '/shelf', act: seeText('12 reels') },
  { name: 'shelf-empty', path: '/shelf', on: 'empty', act: seeText('No reels yet.') },
  { name: 'shelf-300', path: '/shelf', on: '300', act: seeText('300 reels') },
  {
    name: 'shelf-list',
    path: '/shelf',
    act: async (page) => {
      await page.getByText('list', { exact: true }).click()
      await page.getByRole('table').waitFor()
    },
  },
  {
    name: 'shelf-300-list',
    path: '/shelf',
    on: '300',
    act: async (page) => {
      await page.getByText('list', { exact: true }).click()
      await page.getByRole('table').waitFor()
    },
  },
  {
    name: 'shelf-error',
    path: '/shelf',
    on: 'own',
    act: async (page, server) => {
      await page.getByText('12 reels').first().waitFor()
      await cutOff(page, server)
    },
  },
  {
    name: 'shelf-print',
    path: '/',
    act: async (page, server) => {
      await check('tackle-box.gcode')(page, server)
      await page.getByRole('link', { name: 'Shelf' }).click()
      await page.getByText('12 reels').first().waitFor()
      await page.getByText('tackle-box.gcode').first().waitFor()
    },
  },
  {
    name: 'slate',
    path: '/slate',
    act: async (page) => {
      await page.getByRole('button', { name: 'Match them' }).click()
      await page.getByRole('button', { name: 'Keep this plan' }).waitFor({ timeout: 60_000 })
    },
  },
  {
    name: 'slate-why',
    path: '/slate',
    act: async (page) => {
      await page.getByRole('button', { name: 'Match them' }).click()
      await page
        .getByRole('button', { name: /^Why 5a/ })
        .first()
        .click({ timeout: 60_000 })
    },
  },
  { name: 'slate-empty', path: '/slate', on: 'empty', act: seeText('No print waits.') },
  {
    name: 'slate-print',
    path: '/',
    act: async (page, server) => {
      await check('tackle-box.gcode')(page, server)
      await page.getByRole('link', { name: 'Put it on the slate' }).click()
      await page.getByLabel('Copies').waitFor()
    },
  },
  {
    name: 'reel-put-right',
    path: '/reel/REYRT',
    act: async (page) => {
      await page
        .getByRole('button', { name: /^Put right: weighed/ })
        .first()
        .click()
    },
  },
  {
    name: 'slate-error',
    path: '/slate',
    on: 'own',
    act: async (page, server) => {
      await page.getByRole('button', { name: 'Match them' }).waitFor()
      await cutOff(page, server)
      await page.getByRole('button', { name: 'Match them' }).click()
    },
  },
  { name: 'reel', path: '/reel/QX5BN', act: (page) => page.locator('canvas').waitFor() },
  { name: 'bench', path: '/bench', act: (page) => page.getByRole('heading').nth(1).waitFor() },
  {
    name: 'bench-empty',
    path: '/bench',
    on: 'empty',
    act: (page) => page.getByRole('heading').nth(1).waitFor(),
  },
  {
    name: 'bench-weigh',
    path: '/bench?reel=REYRT',
    act: async (page) => {
      await weigh(page, '423')
      await page.getByText(/^It agrees/).waitFor()
    },
  },
  {
    name: 'bench-surprise',
    path: '/bench?reel=REYRT',
    act: async (page) => {
      await weigh(page, '400')
      await page.getByRole('button', { name: 'Keep it' }).click()
      await page.getByRole('alert').waitFor()
    },
  },
  {
    name: 'bench-calipers',
    path: '/bench?measure=calipers&reel=QFMJY',
    act: async (page) => {
      await page.getByLabel('Place 1').fill('1.74 x 1.77')
      await page
        .getByRole('status')
        .getByText(/^Mean of/)
        .waitFor()
    },
  },
  {
    name: 'bench-arrivals',
    path: '/bench?measure=arrivals',
    act: (page) => page.getByRole('heading', { name: /arriv/i }).first().waitFor(),
  },
  ...(
    ['carrier', 'cut', 'immersion', 'winding', 'sheet', 'dried', 'moved', 'trimmed'] as const
  ).map(
    (work): Screen => ({
      name: `bench-${work}`,
      path: `/bench?measure=${work}&reel=QFMJY`,
      act: (page) => page.getByRole('button', { name: 'Keep it' }).waitFor(),
    }),
  ),
  {
    name: 'set-up',
    path: '/set-up',
    act: (page) => page.getByRole('link', { name: 'Priors' }).waitFor(),
  },
  { name: 'set-up-printers', path: '/set-up/printers', act: seeText('Feed factor') },
  { name: 'set-up-makes', path: '/set-up/makes', act: seeText('Linear density') },
  { name: 'set-up-materials', path: '/set-up/materials', act: seeHeading('Materials') },
  { name: 'set-up-scales', path: '/set-up/scales', act: seeText('Step') },
  { name: 'set-up-people', path: '/set-up/people', act: seeHeading('People') },
  { name: 'set-up-priors', path: '/set-up/priors', act: seeHeading('Priors') },
  {
    name: 'set-up-form',
    path: '/set-up/printers',
    act: async (page) => {
      await page.getByRole('button', { name: 'Add a printer' }).click()
      await page.getByRole('button', { name: 'Keep' }).click()
      await page.getByRole('alert').first().waitFor()
    },
  },
  {
    name: 'set-up-demo',
    path: '/set-up/demo',
    act: (page) => page.getByRole('button', { name: /demo/ }).first().waitFor(),
  },
  {
    name: 'set-up-table',
    path: '/set-up/import',
    act: async (page) => {
      await give(page, written('reels.csv', tableOfReels), 'Choose a file')
      await page.getByLabel('Column Stuff is').selectOption('material')
      await page.getByLabel('Column Hue is').selectOption('colour')
      await page.getByLabel('Column On scale is').selectOption('gross')
      await page.getByLabel('The scale of its weighings').selectOption({ label: 'kitchen scale' })
      await page.getByRole('button', { name: 'Show what would come' }).click()
      await page.getByText('Nothing is written yet').waitFor()
    },
  },
  { name: 'set-up-import', path: '/set-up/import', act: seeHeading('Import') },
  { name: 'set-up-access', path: '/set-up/access', act: seeHeading('Pass-phrase and tokens') },
  { name: 'set-up-backup', path: '/set-up/backup', act: seeText('Get a backup') },
  {
    name: 'set-up-restore',
    path: '/set-up/backup',
    on: 'own',
    act: async (page, { origin }) => {
      const backup = await (await fetch(`${origin}/api/backup`)).arrayBuffer()
      const mimeType = 'application/vnd.sqlite3'
      await give(
        page,
        { name: 'shelf.sqlite', mimeType, buffer: Buffer.from(backup) },
        'Choose a backup',
      )
      await page.getByRole('button', { name: 'Put it in its place' }).waitFor()
    },
  },
  {
    name: 'log-in',
    path: '/shelf',
    on: 'locked',
    act: (page) => page.getByRole('heading', { name: 'Log in' }).waitFor(),
  },
  {
    name: 'offline',
    path: '/shelf',
    act: async (page, { origin }) => {
      await page.getByText('12 reels').first().waitFor()
      await keptApp(page)
      await page.context().setOffline(true)
      await page.goto(`${origin}/bench?reel=REYRT`)
      await page.getByLabel('The scale shows').fill('423')
      await page.getByRole('button', { name: 'Keep it' }).click()
      await page.getByText('One weighing waits here for the server.').waitFor()
    },
  },
]

/** Goes on once nothing on the sheet is on its way any more. */
export const settle = async (page: Page): Promise<void> => {
  await page.mouse.move(0, 0)
  await page.evaluate(() => document.fonts.ready)
  await page
    .getByText(/^Reckoning|^Looking/)
    .first()
    .waitFor({ state: 'detached' })
  await page.evaluate(async () => {
    scrollTo(0, 0)
    await new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn)))
  })
}
