import { gzipSync } from 'node:zlib'
import { type Browser, chromium, type Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { demoPrints } from '../../demo/prints/index.ts'
import { ensureChromium } from '../../scripts/find-chromium.ts'
import { readPrint } from '../../src/print/index.ts'
import { type Served, serve } from './serve.ts'

// Built files in a real browser: in the page through an import map, and in a module worker.

/** Reads a print as it arrives and says what every family draws; runs in page and worker alike. */
const readAddress = `async (PrintReader, address) => {
  const reader = new PrintReader()
  const { body } = await fetch(address)
  for (const chunks = body.getReader(); ; ) {
    const { done, value } = await chunks.read()
    if (done) break
    reader.push(value)
  }
  const outcome = reader.finish()
  if (!outcome.ok) return outcome.refusal.code
  const { families } = outcome.value.prints?.[0].reading ?? outcome.value
  return families.map(({ families, tools }) =>
    [families.join(), tools.map(({ tool, peak_mm, curve }) => [tool, peak_mm, curve.draw_mm.length])])
}`

const worker = `import { PrintFileReader, PrintReader } from '/resolved/dist/print/index.js'
const read = ${readAddress}
onmessage = async ({ data }) => {
  const Reader = data.endsWith('.gz') ? PrintFileReader : PrintReader
  postMessage([typeof document, await read(Reader, data)])
}`

const page = `<!doctype html>
<title>Reading</title>
<link rel="icon" href="data:,">
<script type="importmap">{ "imports": { "fflate/browser": "/node_modules/fflate/esm/browser.js" } }</script>
<script type="module">
import { PrintReader } from '/dist/print/index.js'
const read = ${readAddress}
globalThis.readHere = (address) => read(PrintReader, address)
globalThis.readInWorker = (address) => new Promise((settle, fail) => {
  const worker = new Worker('/worker.js', { type: 'module' })
  worker.onmessage = ({ data }) => { worker.terminate(); settle(data) }
  worker.onerror = (event) => { fail(new Error(event.message ?? 'the worker did not start')) }
  worker.postMessage(address)
})
globalThis.ready = true
</script>`

const prints = new Map(
  demoPrints.map((print) => [print.fileName, new TextEncoder().encode(print.write())]),
)

const inNode = (bytes: Uint8Array): unknown => {
  const outcome = readPrint([bytes])
  if (!outcome.ok) return outcome.refusal.code
  return outcome.value.families.map(({ families, tools }) => [
    families.join(','),
    tools.map(({ tool, peak_mm, curve }) => [tool, peak_mm, curve.draw_mm.length]),
  ])
}

const [firstPrint = new Uint8Array()] = prints.values()

let served: Served
let browser: Browser
let tab: Page
const asked: string[] = []
const errors: string[] = []

beforeAll(async () => {
  const executablePath = ensureChromium()
  served = await serve({
    '/index.html': page,
    '/worker.js': worker,
    '/prints/print.gz': gzipSync(firstPrint),
    ...Object.fromEntries([...prints].map(([name, bytes]) => [`/prints/${name}`, bytes])),
  })
  browser = await chromium.launch({
    executablePath,
    args: [
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--no-first-run',
      ...(process.getuid?.() === 0 ? ['--no-sandbox'] : []),
    ],
  })
  tab = await browser.newPage()
  tab.on('request', (request) => asked.push(request.url()))
  tab.on('pageerror', ({ message }) => errors.push(message))
  await tab.goto(`${served.origin}/index.html`)
  await tab.waitForFunction('globalThis.ready === true', null, { timeout: 20_000 })
}, 600_000)

afterAll(async () => {
  await browser?.close()
  served?.close()
})

describe.each([...prints])('%s', (name, bytes) => {
  test('in a module worker it draws what it draws in Node', async () => {
    const [documentThere, read] = await tab.evaluate<readonly [string, unknown]>(
      `readInWorker('/prints/${name}')`,
    )
    expect(documentThere).toBe('undefined')
    expect(read).toEqual(inNode(bytes))
  })
  test('in the page too', async () => {
    expect(await tab.evaluate(`readHere('/prints/${name}')`)).toEqual(inNode(bytes))
  })
})

test('a gzip file is read in the worker as in Node its content', async () => {
  const [, read] = await tab.evaluate<readonly [string, unknown]>(
    "readInWorker('/prints/print.gz')",
  )
  expect(read).toEqual(inNode(firstPrint))
})

test('a file that is no print is refused alike', async () => {
  expect(await tab.evaluate("readHere('/worker.js')")).toBe(
    inNode(new TextEncoder().encode(worker)),
  )
})

test('nothing but this machine was asked', () => {
  expect(asked.length).toBeGreaterThan(10)
  expect(
    asked.filter(
      (address) => !/^(data:|blob:)/.test(address) && !address.startsWith(served.origin),
    ),
  ).toEqual([])
  expect(errors).toEqual([])
})
