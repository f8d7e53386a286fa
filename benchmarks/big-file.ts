import { createHash } from 'node:crypto'
import {
  closeSync,
  mkdirSync,
  openSync,
  readFileSync,
  readSync,
  writeFileSync,
  writeSync,
} from 'node:fs'
import { join } from 'node:path'
import { type BigPrintTruth, bigPrint } from '../demo/big-print.ts'

/** A generated print on disk, and what is known of it without reading it. */
export interface BigFile {
  readonly path: string
  readonly lines: number
  readonly md5: string
  readonly truth: BigPrintTruth
}

const generator = ['big-print.ts', 'bead-feed.ts', 'line-buffer.ts']
const LF = 10

/** Changes when the generator does, so that a file kept from before is not taken for today's. */
const generatorMark = (): string => {
  const hash = createHash('sha256')
  for (const name of generator) hash.update(readFileSync(join('demo', name)))
  return hash.digest('hex')
}

const md5Of = (path: string): string | null => {
  try {
    const file = openSync(path, 'r')
    const hash = createHash('md5')
    const buffer = new Uint8Array(1 << 20)
    for (let length = -1; length !== 0; ) {
      length = readSync(file, buffer, 0, buffer.length, null)
      hash.update(buffer.subarray(0, length))
    }
    closeSync(file)
    return hash.digest('hex')
  } catch {
    return null
  }
}

const kept = (path: string, notes: string, mark: string): BigFile | null => {
  try {
    const { generator: writer, ...facts } = JSON.parse(readFileSync(notes, 'utf8'))
    const file: BigFile = { ...facts, path }
    return writer === mark && md5Of(path) === file.md5 ? file : null
  } catch {
    return null
  }
}

const countLines = (bytes: Uint8Array): number => {
  let lines = 0
  for (let at = bytes.indexOf(LF); at >= 0; at = bytes.indexOf(LF, at + 1)) lines += 1
  return lines
}

/**
 * A big print of so many bytes in the folder: the one kept there when it is whole and written by
 * today's generator, otherwise a new one. Called in the project's root.
 */
export function bigFile(folder: string, bytes: number): BigFile {
  mkdirSync(folder, { recursive: true })
  const path = join(folder, `big-print-${bytes}.gcode`)
  const notes = `${path}.json`
  const mark = generatorMark()
  const before = kept(path, notes, mark)
  if (before !== null) return before
  const hash = createHash('md5')
  let lines = 0
  const file = openSync(path, 'w')
  const chunks = bigPrint(bytes)
  let next = chunks.next()
  while (next.done !== true) {
    hash.update(next.value)
    lines += countLines(next.value)
    for (let at = 0; at < next.value.length; ) at += writeSync(file, next.value, at)
    next = chunks.next()
  }
  closeSync(file)
  const facts = { lines, md5: hash.digest('hex'), truth: next.value }
  writeFileSync(notes, JSON.stringify({ generator: mark, ...facts }))
  return { path, ...facts }
}
