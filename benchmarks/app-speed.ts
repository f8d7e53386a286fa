/*
 * The app and its server, measured: node benchmarks/app-speed.ts [--write]. Wants `npm run build`.
 *
 * A real browser on the built app, the built server, ledgers of invented reels, a generated print of
 * 100 MB. Run it on a quiet machine: browser, server and clients share its cores.
 */
import { execFile } from 'node:child_process'
import { readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { parseArgs, promisify } from 'node:util'
import { chromium, type Page } from 'playwright-core'
import { ensureChromium } from '../scripts/find-chromium.ts'
import { reelListJson } from '../src/contract/index.ts'
import { inventedLedger } from '../test/app/invented-ledger.ts'
import { serveApp } from '../test/app/serve-app.ts'
import { firstLoad } from './app/first-load.ts'
import { readInPage } from './app/large-print.ts'
import { typeInFilter } from './app/type-in-filter.ts'
import { bigFile } from './big-file.ts'
import { describeMachine } from './machine.ts'
import { markdownTable } from './markdown-table.ts'
import { median } from './median.ts'
import { withSection } from './results-page.ts'

const rounds = 15
/** How long a page stands before it is given a print, ms: no person is faster. */
const standing = 1000
const heading = '## The app and its server'

const onPage = async <T>(
  ledger: string,
  path: string,
  act: (page: Page) => Promise<T>,
): Promise<T> => {
  const served = await serveApp(ledger)
  const browser = await chromium.launch({
    executablePath: ensureChromium(),
    args: ['--no-sandbox', '--disable-background-networking'],
  })
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 900 } })
    await page.goto(served.origin + path)
    return await act(page)
  } finally {
    await browser.close()
    await served.end()
  }
}

/** Times of many questions, sorted, and the clients' own work for one, ms, as ask-server.ts says them. */
interface Asked {
  readonly times: readonly number[]
  /** The first questions of all, one about each printer. */
  readonly first: number
  readonly cpu: number
}

/** The time that 95 of 100 do not exceed. */
const p95 = ({ times }: Asked): number => times[Math.ceil(0.95 * times.length) - 1]!

const askMany = async (port: string, clients: number, prints: number): Promise<Asked> => {
  const script = join(import.meta.dirname, 'app/ask-server.ts')
  const words = [script, port, String(clients), String(clients * 40), String(prints)]
  const { stdout } = await promisify(execFile)(process.execPath, words, { maxBuffer: 2 ** 26 })
  return JSON.parse(stdout) as Asked
}

const asJson = async (asked: Promise<Response>): Promise<unknown> => {
  const answer = await asked
  if (!answer.ok) throw new Error(await answer.text())
  return answer.json()
}

/** The first question about one printer after each of some weighings, ms, sorted: all is worked out anew. */
const askAfterWeighings = async (origin: string): Promise<readonly number[]> => {
  const headers = { 'content-type': 'application/json' }
  const post = (path: string, body: object): Promise<unknown> =>
    asJson(fetch(`${origin}${path}`, { method: 'POST', headers, body: JSON.stringify(body) }))
  const { reels } = reelListJson.parse(await asJson(fetch(`${origin}/api/reels`)))
  const times: number[] = []
  for (const { reel, net_g } of reels.slice(0, 9)) {
    const reading_g = Math.round((net_g?.value ?? 0) + 200)
    // oxlint-disable-next-line no-await-in-loop -- timed, so one after the other
    await post('/api/weighings', { reel: reel.id, weighing: { reading_g }, accept: true })
    const from = performance.now()
    // oxlint-disable-next-line no-await-in-loop -- as above
    await post('/api/checks/shelf', { length_mm: 50_000, printer: 'Gull', most: 100 })
    times.push(performance.now() - from)
  }
  return times.toSorted((a, b) => a - b)
}

/** A large print read in a process begun for it, ms, as read-in-node.ts says it. */
interface ReadInNode {
  readonly reading: number
  readonly hashed: number
}

const readInNode = async (path: string): Promise<ReadInNode> => {
  const script = join(import.meta.dirname, 'app/read-in-node.ts')
  return JSON.parse((await promisify(execFile)(process.execPath, [script, path])).stdout)
}

const { values } = parseArgs({ options: { write: { type: 'boolean', default: false } } })

const { first, later } = firstLoad()
const big = bigFile(join(tmpdir(), 'reelreckon-benchmark'), 100_000_000)
const inNode: ReadInNode[] = []
const inPage: Awaited<ReturnType<typeof readInPage>>[] = []
for (let round = 0; round < rounds; round++) {
  // One after the other: both want the machine for themselves.
  // oxlint-disable-next-line no-await-in-loop -- timed, so one after the other
  inNode.push(await readInNode(big.path))
  inPage.push(
    // oxlint-disable-next-line no-await-in-loop -- timed, so one after the other
    await onPage('bench', '/', async (page) => {
      await page.waitForTimeout(standing)
      return readInPage(page, big.path)
    }),
  )
}
const keys = await onPage(inventedLedger(2000), '/shelf', async (page) => {
  await page.getByText('2,000 reels').first().waitFor()
  return (await typeInFilter(page)).toSorted((a, b) => a - b)
})
const served = await serveApp(inventedLedger(1000))
const { port } = new URL(served.origin)
const alone = await askMany(port, 1, 40)
const same = await askMany(port, 50, 20)
const other = await askMany(port, 50, 2000)
const afterWeighing = await askAfterWeighings(served.origin)
await served.end()

const ms = (value: number): string => `${value.toFixed(value < 100 ? 1 : 0)} ms`
const kB = (bytes: number): string => `${(bytes / 1000).toFixed(0)} kB`
const reached = (isReached: boolean): string => (isReached ? 'reached' : '**not reached**')
const ofReading = inPage.map(({ reading }) => reading)
const ofPicture = inPage.map(({ picture }) => picture)
const ofVerdict = inPage.map(({ verdict }) => verdict)
const ofNode = inNode.map(({ reading }) => reading)
const ratio = median(ofNode.map((reading, round) => reading / ofReading[round]!))
const rows = [
  ['first load, compressed', kB(first), '250 kB', reached(first <= 250_000)],
  ['fetched later, compressed', kB(later), '', ''],
  ['100 MB read in Node', ms(median(ofNode)), '', ''],
  ['until its hash is there', ms(median(inNode.map(({ hashed }) => hashed))), '', ''],
  ['the same read in the browser', ms(median(ofReading)), '', ''],
  [
    'speed there, of Node’s, median of the rounds’ own ratios',
    ratio.toFixed(2),
    '0.7',
    reached(ratio >= 0.7),
  ],
  ['from its end to its hash', ms(median(inPage.map(({ hash }) => hash))), '', ''],
  [
    'from its end to the first picture',
    ms(median(ofPicture)),
    '1000 ms',
    reached(median(ofPicture) <= 1000),
  ],
  ['from the file to the verdict', ms(median(ofVerdict)), '', ''],
  ['a key in the filter of 2 000 reels, median', ms(median(keys)), '', ''],
  ['the slowest of them', ms(keys.at(-1)!), '50 ms', reached(keys.at(-1)! < 50)],
  ['verdict over 1 000 reels, the first, on three printers', ms(alone.first), '', ''],
  ['then, one client, 95 %', ms(p95(alone)), '', ''],
  ['the same, 50 clients, 20 prints, 95 %', ms(p95(same)), '100 ms', reached(p95(same) < 100)],
  ['the same, 50 clients, 2 000 prints, 95 %', ms(p95(other)), '100 ms', reached(p95(other) < 100)],
  ['the first after a weighing, on one printer, median of 9', ms(median(afterWeighing)), '', ''],
  ['of a processor, the client’s part of one question', ms(other.cpu), '', ''],
]
const columns = [
  { heading: 'what', figures: false },
  { heading: 'measured', figures: true },
  { heading: 'to reach', figures: true },
  { heading: '', figures: false },
]
const { date, cpu, cores, memory_GiB, system } = describeMachine()
const section = `${heading}

Written by \`node benchmarks/app-speed.ts --write\` on ${date}: ${cpu}, ${cores} cores, ${memory_GiB} GiB, ${system}.
Times of reading are medians of ${rounds}, each in a browser or process begun for it, in turn. Both read the silhouette
and the times as well. Node hashes the file beside; the app does that where there are four processors, and where there are fewer when it has read. The page stands for a second before it is given the file, and warms its reader up
on an invented print, as the app does while it waits; Node begins cold, as the command line does. The browser's verdict waits for the
hash, and for the server. Clients run on the same machine, in one process that receives answers and does not read them; all are
connected before they begin, and each asks again as soon as it is answered. What is left of each reel for a printer is worked out at the first question about that
printer after a fact; a question that was asked since the last fact is answered from what was worked out then, so
20 prints among 50 clients are mostly that, and 2 000 prints are not.

${markdownTable(columns, rows).join('\n')}`
console.log(section)
if (values.write) {
  const path = 'benchmarks/RESULTS.md'
  writeFileSync(path, withSection(readFileSync(path, 'utf8'), heading, section))
}
