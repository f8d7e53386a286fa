import { join } from 'node:path'
import type { BigFile } from './big-file.ts'

/** One way to go through the file. */
export interface Contestant {
  readonly name: string
  /** What it does with the file, in a few words. */
  readonly does: string
  /** Program and words; the file's path comes last. */
  readonly command: readonly string[]
  /** Why its output is wrong; null when it is right. */
  readonly complaint: (output: string, file: BigFile) => string | null
  /** Speed to be reached, the yardstick's being 1. */
  readonly aim?: number
}

/** What the readers written for Node print. */
export interface ReaderOutput {
  readonly peak_mm: number
  readonly net_mm: number
  readonly lines: number
  readonly layers?: number
  readonly curveRows?: number
  readonly layerEnds?: number
  readonly curveEnd_mm?: number
  readonly silhouetteCells?: number
  readonly time_s?: number
  readonly peakMemory_kB: number
}

// The readers are plain JavaScript: taking types off as Node loads them would count as theirs.
const node = (reader: string): readonly string[] => [
  process.execPath,
  join('benchmarks', 'readers', `${reader}.js`),
]

const near = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-6 * Math.abs(b)

const wrongDraw = (output: string, { lines, truth }: BigFile): string | null => {
  const read: ReaderOutput = JSON.parse(output)
  if (read.lines !== lines) return `${read.lines} lines instead of ${lines}`
  if (!near(read.peak_mm, truth.peak_mm)) return `peak ${read.peak_mm}, truth ${truth.peak_mm}`
  if (!near(read.net_mm, truth.net_mm)) return `net ${read.net_mm}, truth ${truth.net_mm}`
  return null
}

const wrongReading = (output: string, file: BigFile): string | null => {
  const { layers, layerEnds, curveRows = 0, curveEnd_mm = 0 }: ReaderOutput = JSON.parse(output)
  const { layers: drawn, peak_mm } = file.truth
  if (layers !== drawn) return `${layers} layers instead of ${drawn}`
  if (layerEnds !== drawn) return `${layerEnds} layer ends instead of ${drawn}`
  if (curveRows < 1000) return `${curveRows} rows in the draw curve instead of a thousand`
  if (!near(curveEnd_mm, peak_mm)) return `curve ends at ${curveEnd_mm}, truth ${peak_mm}`
  return wrongDraw(output, file)
}

/** The generator's own silhouette is not known: that there is one is all that is asked. */
const wrongDrawing = (output: string, file: BigFile): string | null => {
  const { silhouetteCells = 0 }: ReaderOutput = JSON.parse(output)
  return silhouetteCells > 0 ? wrongReading(output, file) : 'no silhouette'
}

/** Nor is its time: that there is one, longer than a move a line at a millisecond, is all that is asked. */
const wrongTiming = (output: string, file: BigFile): string | null => {
  const { time_s = 0 }: ReaderOutput = JSON.parse(output)
  return time_s > file.lines / 1000 ? wrongDrawing(output, file) : `a time of ${time_s} s`
}

/** All that are measured; the second is what the others are compared with. */
export const contestants: readonly Contestant[] = [
  {
    name: 'reelreckon',
    does: 'draw curve, layers, findings, all firmware families',
    command: node('reelreckon'),
    complaint: wrongReading,
    aim: 1.8,
  },
  {
    name: 'md5sum',
    does: 'checksum',
    command: ['md5sum'],
    complaint: (output, { md5 }) => (output.startsWith(md5) ? null : `not ${md5}: ${output}`),
  },
  {
    name: 'reelreckon, 2 threads',
    does: 'the same as reelreckon, ranges of the file read apart and folded',
    command: [...node('reelreckon-threads'), '2'],
    complaint: wrongReading,
    aim: 3,
  },
  {
    name: 'reelreckon, time and silhouette',
    does: 'the same as reelreckon, the time along the print and the silhouette',
    command: [...node('reelreckon'), '--time', '--silhouette'],
    complaint: wrongTiming,
    aim: 0.5,
  },
  {
    name: 'wc -l',
    does: 'counts line ends',
    command: ['wc', '-l'],
    complaint: (output, { lines }) =>
      Number.parseInt(output, 10) === lines ? null : `not ${lines} lines: ${output}`,
  },
  {
    name: 'readline',
    does: 'Node readline and a regular expression: relative E, net and peak',
    command: node('readline-regex'),
    complaint: wrongDraw,
  },
  {
    name: 'gcode-parser',
    does: 'npm package, line by line: relative E, net and peak',
    command: node('gcode-parser'),
    complaint: wrongDraw,
  },
]

/** Those that are measured with a larger print as well. */
export const larger: readonly string[] = contestants
  .filter(({ name, aim }) => aim !== undefined || name === 'md5sum')
  .map(({ name }) => name)

/** Name of the contestant whose speed is the measure. */
export const yardstick = 'md5sum'
