import { spawn } from 'node:child_process'
import {
  appendFileSync,
  copyFileSync,
  mkdtempSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { gzipSync } from 'node:zlib'
import { afterEach, describe, expect, test } from 'vitest'
import {
  type CheckJson,
  type ShelfCheckJson,
  type WatchJson,
  watchJson,
} from '../../src/contract/index.ts'
import { zipOf } from '../zip-of.ts'
import { folderOfPrints, runCli } from './run-cli.ts'

const main = fileURLToPath(new URL('../../dist/bundle/main.js', import.meta.url))
const prints = folderOfPrints()
const knob = readFileSync(join(prints, 'knob.gcode'))
const pin = readFileSync(join(prints, 'hinge-pin.gcode'))

const newFolder = (): string => mkdtempSync(join(tmpdir(), 'reelreckon-watch-'))

/** A folder with the bench's ledger in it. */
const newBench = (): string => {
  const data = newFolder()
  runCli(['import', 'marrowick.ndjson', '--data', data], { cwd: prints })
  return data
}

const running = new Set<() => void>()
afterEach(() => {
  for (const end of running) end()
  running.clear()
})

type EventOf<Name extends WatchJson['event']> = Extract<WatchJson, { event: Name }>

/** The built `reelreckon watch --json` at work. */
const startWatch = (folder: string, data: string, words: readonly string[] = []) => {
  const { PATH = '', HOME = '' } = process.env
  const child = spawn(process.execPath, [main, 'watch', folder, '--json', ...words], {
    env: { PATH, HOME, LC_ALL: 'C.UTF-8', REELRECKON_DATA: data },
  })
  running.add(() => child.kill('SIGKILL'))
  const ended = new Promise<number | null>((resolve) => child.once('close', resolve))
  const events: WatchJson[] = []
  let rest = ''
  let err = ''
  child.stderr.on('data', (part) => (err += String(part)))
  child.stdout.on('data', (part) => {
    const lines = (rest + String(part)).split('\n')
    rest = lines.pop()!
    for (const line of lines) events.push(watchJson.parse(JSON.parse(line)))
  })
  let taken = 0
  /** The next event of a kind; what comes before it is passed over. */
  const next = async <Name extends WatchJson['event']>(name: Name): Promise<EventOf<Name>> => {
    for (let tried = 0; tried < 600; tried++) {
      while (taken < events.length) {
        const event = events[taken++]!
        if (event.event === name) return event as EventOf<Name>
      }
      // oxlint-disable-next-line no-await-in-loop -- waiting
      await new Promise((resolve) => setTimeout(resolve, 50))
    }
    throw new Error(
      `no "${name}" came, but ${JSON.stringify(events.map((each) => each.event))}; ${err}`,
    )
  }
  const end = async (): Promise<number | null> => {
    child.kill('SIGINT')
    return ended
  }
  return { next, end, events, err: () => err }
}

/** The reel that would be taken for the first tool. */
const bestOf = ({ check }: EventOf<'judged'>): string =>
  (check as ShelfCheckJson).tools[0]!.reels[0]!.reel.id

const verdictOf = ({ check }: EventOf<'judged'>): string | undefined => check?.verdict

test('what is there is judged, what arrives as well, and Ctrl-C ends it cleanly', async () => {
  const folder = newFolder()
  const data = newBench()
  copyFileSync(join(prints, 'knob.gcode'), join(folder, 'knob.gcode'))
  const { next, end, events, err } = startWatch(folder, data)
  expect(await next('watching')).toMatchObject({ folder, subfolders: false })
  const { revision, reels } = await next('shelf')
  expect(revision).toBeGreaterThan(0)
  expect(reels).toBeGreaterThan(5)
  const first = await next('judged')
  expect(first).toMatchObject({
    why: 'read',
    // The bench keeps its own prints.
    kept: true,
    print: { file: join(folder, 'knob.gcode') },
  })
  const alone = runCli(['check', join(folder, 'knob.gcode'), '--json', '--data', data])
  const answer = JSON.parse(alone.out)
  for (const tool of answer.tools) tool.reels = tool.reels.slice(0, 5)
  // Whoever stays with a folder keeps no layers of all that is in it.
  answer.time.along = []
  expect(first.check).toEqual(answer)

  copyFileSync(join(prints, 'two-tool-part.gcode'), join(folder, 'two.gcode'))
  const second = await next('judged')
  expect(second.tools.map(({ tool }) => tool)).toEqual([0, 1])
  expect(await end()).toBe(0)
  expect(events.at(-1)).toMatchObject({ event: 'ended', prints: 2 })
  expect(err()).toBe('')
})

test('half-written files: nothing is said of half a print as if it were the whole', async () => {
  const folder = newFolder()
  const { next, end, events } = startWatch(folder, newFolder())
  await next('shelf')
  const packed = gzipSync(knob)
  const zipped = zipOf([{ name: 'pin.gcode', bytes: pin }])
  const halves = [packed, zipped].map((bytes) => bytes.length >> 1)
  writeFileSync(join(folder, 'knob.gcode.gz'), packed.subarray(0, halves[0]))
  writeFileSync(join(folder, 'pin.zip'), zipped.subarray(0, halves[1]))
  const waits = [await next('unread'), await next('unread')]
  expect(waits.map(({ again }) => again)).toEqual([true, true])
  appendFileSync(join(folder, 'knob.gcode.gz'), packed.subarray(halves[0]))
  appendFileSync(join(folder, 'pin.zip'), zipped.subarray(halves[1]))
  const judged = [await next('judged'), await next('judged')]
  const layers = Object.fromEntries(judged.map(({ print }) => [print.file, print.layers]))
  expect(layers).toEqual({ [join(folder, 'knob.gcode.gz')]: 60, [join(folder, 'pin.zip')]: 150 })

  // Plain text shows no end: it is waited for as long as somebody writes.
  const plain = join(folder, 'plain.gcode')
  const size = Math.ceil(knob.length / 8)
  for (let from = 0; from < knob.length; from += size) {
    appendFileSync(plain, knob.subarray(from, from + size))
    // oxlint-disable-next-line no-await-in-loop -- as a slow writer does
    await new Promise((resolve) => setTimeout(resolve, 300))
  }
  expect((await next('judged')).print).toMatchObject({ file: plain, layers: 60 })
  await end()
  expect(events.filter(({ event }) => event === 'judged')).toHaveLength(3)
})

test('renamed into place, replaced under the same name, and gone', async () => {
  const folder = newFolder()
  const { next, end } = startWatch(folder, newFolder())
  await next('shelf')
  const file = join(folder, 'a.gcode')
  const draft = join(folder, '.a.gcode.part')
  writeFileSync(draft, knob)
  renameSync(draft, file)
  const first = await next('judged')
  expect(first.print.layers).toBe(60)
  writeFileSync(draft, pin)
  renameSync(draft, file)
  const second = await next('judged')
  expect(second.print.layers).toBe(150)
  expect(second.print.sha256).not.toBe(first.print.sha256)
  rmSync(file)
  expect(await next('gone')).toMatchObject({ file })
  expect(await end()).toBe(0)
})

describe('the shelf', () => {
  test('what others write to it is judged anew', async () => {
    const folder = newFolder()
    const data = newBench()
    copyFileSync(join(prints, 'tackle-box.gcode'), join(folder, 'box.gcode'))
    const { next, end } = startWatch(folder, data, ['--material', 'PLA'])
    const before = await next('judged')
    const best = bestOf(before)
    expect(runCli(['retire', best, '--data', data]).exit).toBe(0)
    const shelf = await next('shelf')
    expect(shelf.revision).toBeGreaterThan(0)
    const after = await next('judged')
    expect(after.why).toBe('shelf')
    expect(bestOf(after)).not.toBe(best)
    await end()
  })

  test('by one reel: where it runs dry and when is told, and of tools without a reel nothing', async () => {
    const folder = newFolder()
    const data = newBench()
    copyFileSync(join(prints, 'tackle-box.gcode'), join(folder, 'box.gcode'))
    const all = runCli(['check', 'tackle-box.gcode', '--all', '--json', '--data', data], {
      cwd: prints,
    })
    const { reels } = (JSON.parse(all.out) as ShelfCheckJson).tools[0]!
    const short = reels.find(({ verdict }) => verdict === 'short')!.reel.id
    const { next, end } = startWatch(folder, data, ['--reel', short])
    const { check } = (await next('judged')) as { check: CheckJson }
    expect(check.verdict).toBe('short')
    expect(check.run_dry.clock!.early_s).toBeGreaterThan(0)
    expect(check.change_before!.clock!.likely_s).toBeLessThan(check.time!.takes.likely_s!)
    copyFileSync(join(prints, 'two-tool-part.gcode'), join(folder, 'two.gcode'))
    expect(await next('judged')).toMatchObject({ check: null })
    await end()
    const { exit, err } = runCli(['watch', folder, '--reel', 'ZZZZZ', '--data', data])
    expect([exit, err.includes('ZZZZZ')]).toEqual([2, true])
  })

  test('without a ledger what a print draws is told; once there is one, the verdict', async () => {
    const folder = newFolder()
    const data = newFolder()
    writeFileSync(join(folder, 'knob.gcode'), knob)
    const { next, end } = startWatch(folder, data)
    expect(await next('shelf')).toMatchObject({ revision: null, reels: 0 })
    const before = await next('judged')
    expect(before).toMatchObject({ check: null, why: 'read' })
    expect(before.tools[0]!.peak_mm).toBeCloseTo(4914, -1)
    const words = 'reel add --make Kittiwake --maker K --material PLA --label 1kg --gross-new 1284g'
    const made = runCli([...words.split(' '), '--data', data])
    expect(made.exit).toBe(0)
    // The ledger may be seen before the reel is in it.
    const begun = await next('shelf')
    expect(begun.reels === 1 ? begun : await next('shelf')).toMatchObject({ reels: 1 })
    const after = await next('judged')
    expect([after.why, verdictOf(after)]).toEqual(['shelf', 'enough'])
    await end()
  })

  test('--keep keeps prints in the ledger, once, and what is kept is known again', async () => {
    const folder = newFolder()
    const data = newBench()
    writeFileSync(join(folder, 'pin.gcode'), pin)
    const first = startWatch(folder, data, ['--keep'])
    const { kept, print } = await first.next('judged')
    expect(kept).toBe(true)
    await first.end()
    const second = startWatch(folder, data)
    expect(await second.next('judged')).toMatchObject({ kept: true })
    await second.end()
    const lines = runCli(['export', '--data', data]).out.split('\n')
    expect(lines.filter((line) => line.includes(`"id":"${print.sha256}"`))).toHaveLength(1)
  })
})

test('what can not be read is told with its reason, and the others are read', async () => {
  const folder = newFolder()
  writeFileSync(join(folder, 'prose.gcode'), 'Dear diary\n'.repeat(50))
  writeFileSync(join(folder, 'knob.gcode'), knob)
  const { next, end, events } = startWatch(folder, newFolder())
  await next('judged')
  if (!events.some(({ event }) => event === 'unread')) await next('unread')
  const unread = events.find(({ event }) => event === 'unread')
  expect(unread).toMatchObject({ error: { code: 'no_machine_code' } })
  await end()
})

describe('wrong usage', () => {
  const bench = newBench()

  test.each([
    ['a folder that is not there', [join(tmpdir(), 'nowhere-at-all')], 3, 'There is no such'],
    ['a file', [join(prints, 'knob.gcode')], 3, 'This is a file'],
    ['a printer nobody knows', [prints, '--printer', 'nobody'], 2, '--printer'],
    ['a confidence that is none', [prints, '--confidence', '20%'], 2, '--confidence'],
  ] as const)('%s', (_, words, exit, says) => {
    const run = runCli(['watch', ...words, '--data', bench])
    expect([run.exit, run.out]).toEqual([exit, ''])
    expect(run.err).toContain(says)
  })
})

test('as text: a line for each print, no colour and no progress in a pipe', async () => {
  const folder = newFolder()
  writeFileSync(join(folder, 'knob.gcode'), knob)
  writeFileSync(join(folder, 'cut.gcode.gz'), gzipSync(knob).subarray(0, 500))
  const { PATH = '', HOME = '' } = process.env
  const child = spawn(process.execPath, [main, 'watch', folder, '--make', 'Ostrelle'], {
    env: { PATH, HOME, LC_ALL: 'C.UTF-8', REELRECKON_DATA: newBench() },
  })
  running.add(() => child.kill('SIGKILL'))
  let out = ''
  let err = ''
  child.stderr.on('data', (part) => (err += String(part)))
  child.stdout.on('data', (part) => (out += String(part)))
  for (let tried = 0; tried < 600 && !/stay/.test(out); tried++) {
    // oxlint-disable-next-line no-await-in-loop -- waiting
    await new Promise((resolve) => setTimeout(resolve, 50))
  }
  const ended = new Promise((resolve) => child.once('close', resolve))
  child.kill('SIGTERM')
  expect(await ended).toBe(0)
  expect(err).toBe('')
  expect(out).not.toContain('\u001B')
  expect(out).toMatch(/^ {2}\d\d:\d\d {2}enough +\d.*knob\.gcode +4\.91 m {2}\w{5} {2}\d+ ± /m)
  expect(out).toContain('reels in use on the shelf')
  expect(out).toContain('Ended. 1 print followed to the end.')
  for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(80)
})
