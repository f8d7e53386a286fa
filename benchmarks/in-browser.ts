import { readFileSync } from 'node:fs'
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { basename, join } from 'node:path'
import { chromium } from 'playwright-core'
import { transformSync } from 'rolldown/utils'
import { ensureChromium } from '../scripts/find-chromium.ts'
import { bigFile } from './big-file.ts'
import { median } from './median.ts'
import { timed } from './timed.ts'

/** How long one took. */
interface Took {
  /** From the file to its draw curve. */
  readonly reading_s: number
  /** Until the bytes of the file were handed over, and not read. */
  readonly handed_s: number
  /** From bytes in memory to the draw curve. */
  readonly alone_s: number
  readonly peak_mm?: number
}

/** The same file read in Node and in Chromium in turn; medians, and speed there over that in Node. */
export interface InBrowser {
  readonly bytes: number
  readonly node: Took
  readonly browser: Took
  readonly readingRatio: number
  readonly handedRatio: number
  readonly aloneRatio: number
}

/** The app's own way through a file, the built library, or the thread that uses both. */
const scriptAt = (url: string): string => {
  const name = basename(url)
  if (name === 'each-slice.js') {
    const path = 'src/app/reading/each-slice.ts'
    return transformSync(path, readFileSync(path, 'utf8')).code
  }
  const folder = url.startsWith('/bundle/') ? 'dist/bundle' : 'benchmarks/readers'
  return readFileSync(join(folder, name), 'utf8')
}

/** How long a page stands before it is given the file, ms: as before a person, its browser has begun. */
const standing = 1000

/** Serves a page with nothing but a place for a file, the bundle, and the thread that reads. */
const serve = async (): Promise<{ readonly origin: string; readonly end: () => void }> => {
  const server = createServer(({ url = '/' }, response) => {
    if (url === '/') {
      response.setHeader('content-type', 'text/html')
      response.end('<!doctype html><title>reader</title><input type="file">')
      return
    }
    response.setHeader('content-type', 'text/javascript')
    try {
      response.end(scriptAt(url))
    } catch {
      response.writeHead(404).end()
    }
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const { port } = server.address() as AddressInfo
  return { origin: `http://127.0.0.1:${port}`, end: () => server.close() }
}

const readInPage = async (origin: string, path: string): Promise<Took> => {
  const browser = await chromium.launch({
    executablePath: ensureChromium(),
    args: ['--no-sandbox', '--disable-background-networking'],
  })
  try {
    const page = await browser.newPage()
    await page.goto(origin)
    await page.locator('input').setInputFiles(path)
    await page.waitForTimeout(standing)
    return await page.evaluate(
      () =>
        new Promise<Took>((resolve, reject) => {
          const worker = new Worker('/browser-worker.js', { type: 'module' })
          worker.addEventListener('message', ({ data }) => resolve(data))
          worker.addEventListener('error', ({ message }) => reject(new Error(message)))
          // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread has no origin
          worker.postMessage(document.querySelector('input')?.files?.[0])
        }),
    )
  } finally {
    await browser.close()
  }
}

const readInNode = (path: string): Took => {
  const reader = join('benchmarks', 'readers', 'node-beside-browser.js')
  return JSON.parse(timed([process.execPath, reader, path]).output) as Took
}

/**
 * Lets a fresh Node and a fresh Chromium read the file in turn.
 *
 * @throws Error when what one of them reads is wrong
 */
export async function measureInBrowser(
  folder: string,
  bytes: number,
  rounds: number,
): Promise<InBrowser> {
  const { path, truth } = bigFile(folder, bytes)
  const served = await serve()
  const inNode: Took[] = []
  const inPage: Took[] = []
  try {
    for (let round = 0; round < rounds; round += 1) {
      inNode.push(readInNode(path))
      // oxlint-disable-next-line no-await-in-loop -- each wants the machine for itself
      inPage.push(await readInPage(served.origin, path))
    }
  } finally {
    served.end()
  }
  for (const { peak_mm = 0 } of [...inNode, ...inPage]) {
    if (Math.abs(peak_mm - truth.peak_mm) > 1e-6) throw new Error(`peak ${peak_mm}`)
  }
  const middle = (took: readonly Took[]): Took => ({
    reading_s: median(took.map(({ reading_s }) => reading_s)),
    handed_s: median(took.map(({ handed_s }) => handed_s)),
    alone_s: median(took.map(({ alone_s }) => alone_s)),
  })
  const ratio = (of: 'reading_s' | 'handed_s' | 'alone_s'): number =>
    median(inNode.map((took, round) => took[of] / inPage[round]![of]))
  return {
    bytes,
    node: middle(inNode),
    browser: middle(inPage),
    readingRatio: ratio('reading_s'),
    handedRatio: ratio('handed_s'),
    aloneRatio: ratio('alone_s'),
  }
}
