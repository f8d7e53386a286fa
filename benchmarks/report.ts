import { yardstick } from './contestants.ts'
import type { InBrowser } from './in-browser.ts'
import type { Machine } from './machine.ts'
import type { ManyFiles } from './many-files.ts'
import { type Column, markdownTable } from './markdown-table.ts'
import type { MemoryAt, Speed, StartUp } from './measure.ts'

/** All that one benchmark run found. */
export interface Results {
  readonly machine: Machine
  readonly rounds: number
  /** Size of the print that all read. */
  readonly bytes: number
  readonly speeds: readonly Speed[]
  /** Those of a larger print. */
  readonly larger?: { readonly bytes: number; readonly speeds: readonly Speed[] }
  readonly inBrowser?: InBrowser
  readonly manyFiles?: ManyFiles
  readonly memory: readonly MemoryAt[]
  readonly startUp: StartUp | null
}

/** What is to be reached. */
const aims = { memory_MB: 150, startUp: 2, inBrowser: 0.8, growth: 1.25 } as const

const megabytes = (kB: number | null): string =>
  kB === null ? 'not seen' : ((kB * 1024) / 1e6).toFixed(kB < 10_000 ? 1 : 0)
const size = (bytes: number): string =>
  bytes >= 1e9 ? `${bytes / 1e9} GB` : bytes >= 1e6 ? `${bytes / 1e6} MB` : `${bytes / 1e3} kB`
const met = (yes: boolean): string => (yes ? 'reached' : '**not reached**')

const text = (heading: string): Column => ({ heading, figures: false })
const figures = (heading: string): Column => ({ heading, figures: true })

const speedTable = (speeds: readonly Speed[]): readonly string[] =>
  markdownTable(
    [
      text('reader'),
      text('what it does'),
      ...['wall s', 'slowest s', 'CPU s', 'MB/s', 'speed', 'peak MB'].map(figures),
    ],
    speeds.map((each) => [
      each.name,
      each.does,
      each.wall_s.toFixed(3),
      each.slowest_s.toFixed(3),
      each.cpu_s.toFixed(3),
      each.MBps.toFixed(each.MBps < 100 ? 1 : 0),
      each.ratio.toFixed(each.ratio < 0.1 ? 3 : 2),
      megabytes(each.peakMemory_kB),
    ]),
  )

const speedAims = (speeds: readonly Speed[]): readonly string[] =>
  speeds.flatMap(({ name, ratio, aim }) =>
    aim === null
      ? []
      : [
          `- To reach: ${name} at ${aim} times the speed of ${yardstick}. Measured ${ratio.toFixed(2)}: ` +
            `${met(ratio >= aim)}.`,
        ],
  )

const largerLines = ({ larger }: Results): readonly string[] =>
  larger === undefined
    ? []
    : [
        `The same with a print of ${size(larger.bytes)}:`,
        '',
        ...speedTable(larger.speeds),
        '',
        ...speedAims(larger.speeds),
        '',
      ]

const browserLines = ({ inBrowser }: Results): readonly string[] =>
  inBrowser === undefined
    ? []
    : [
        '## In the browser',
        '',
        `The print of ${size(inBrowser.bytes)} to its draw curve, in a thread of a page in a fresh Chromium and in a fresh`,
        'Node in turn, the kernel compiled before; then the same file handed over slice by slice and not read; then',
        'read from memory, the second time. The page stands for a second before it is given the file, which is read',
        'by the app’s own module.',
        '',
        ...markdownTable(
          [text('from'), ...['Chromium s', 'Node s', 'speed of Node’s'].map(figures)],
          [
            browserRow(inBrowser, 'the file', 'reading'),
            browserRow(inBrowser, 'the file, handed over and not read', 'handed'),
            browserRow(inBrowser, 'memory', 'alone'),
          ],
        ),
        '',
        `To reach: ${aims.inBrowser} of Node's speed. The reader itself: ${met(inBrowser.aloneRatio >= aims.inBrowser)}; with the browser's ` +
          `way of giving a file: ${met(inBrowser.readingRatio >= aims.inBrowser)}.`,
        `From the file that would be ${(inBrowser.node.reading_s / aims.inBrowser).toFixed(3)} s; Chromium takes ${inBrowser.browser.handed_s.toFixed(3)} s to hand it over alone.`,
        '',
      ]

const browserRow = (
  measured: InBrowser,
  from: string,
  of: 'reading' | 'handed' | 'alone',
): readonly string[] => [
  from,
  measured.browser[`${of}_s`].toFixed(3),
  measured.node[`${of}_s`].toFixed(3),
  measured[`${of}Ratio`].toFixed(2),
]

const manyLines = ({ manyFiles }: Results): readonly string[] =>
  manyFiles === undefined
    ? []
    : [
        '## Many files',
        '',
        `\`reelreckon read\` of one print of ${size(manyFiles.bytes)}, given ${manyFiles.files} times over, with its times and SHA-256, takes ` +
          `${manyFiles.read_s.toFixed(2)} s;`,
        `${yardstick} of the same takes ${manyFiles.md5sum_s.toFixed(2)} s: ${manyFiles.ratio.toFixed(2)} times its speed.`,
        '',
      ]

/** The smallest file is next to nothing: what it takes is start-up. */
const secondsPerByte = ([smallest]: readonly MemoryAt[], { bytes, wall_s }: MemoryAt): number =>
  (wall_s - smallest!.wall_s) / (bytes - smallest!.bytes)

const memoryTable = (memory: readonly MemoryAt[]): readonly string[] => {
  const perByte = (at: MemoryAt): string =>
    at === memory[0] ? '—' : (secondsPerByte(memory, at) * 1e9).toFixed(2)
  return markdownTable(
    [text('file'), ...memory.map(({ bytes }) => figures(size(bytes)))],
    [
      ['peak MB', ...memory.map(({ peakMemory_kB }) => megabytes(peakMemory_kB))],
      ['wall s', ...memory.map(({ wall_s }) => wall_s.toFixed(3))],
      ['ns a byte, start-up taken off', ...memory.map(perByte)],
    ],
  )
}

/** Start-up is most of what small files take: of those no time a byte is told. */
const sizeable = 100_000_000

const growthLines = (memory: readonly MemoryAt[]): readonly string[] => {
  const large = memory.filter(({ bytes }) => bytes >= sizeable)
  const [first, last] = [large[0], large.at(-1)]
  if (first === undefined || last === undefined || first === last) return []
  const [one, other] = [first, last].map((at) => secondsPerByte(memory, at))
  const growth = other! / one!
  return [
    `A byte of the file of ${size(last.bytes)} takes ${growth.toFixed(2)} times as long as one of ${size(first.bytes)}. To reach: no more than ` +
      `${aims.growth}, so that time grows with the size and no faster: ${met(growth <= aims.growth)}.`,
  ]
}

const ms = (seconds: number): string => `${(seconds * 1000).toFixed(0)} ms`

const startUpLines = (startUp: StartUp | null): string[] =>
  startUp === null
    ? ['Not measured: the command line does not print its help yet.']
    : [
        `\`reelreckon --help\` takes ${ms(startUp.help_s)}, \`node -e 0\` ${ms(startUp.nothing_s)}: ` +
          `${startUp.ratio.toFixed(2)} times as long (to reach: under ${aims.startUp}; ` +
          `${met(startUp.ratio < aims.startUp)}).`,
      ]

/** The page about one benchmark run, in Markdown. Every figure is from the results. */
export function report(results: Results): string {
  const { machine, rounds, bytes, speeds, memory, startUp } = results
  const reader = speeds[0]!
  const peaks = [reader.peakMemory_kB ?? 0, ...memory.map(({ peakMemory_kB }) => peakMemory_kB)]
  const worst_MB = (Math.max(...peaks) * 1024) / 1e6
  return `${[
    '# Results of the benchmark',
    '',
    `Written by \`npm run benchmark -- --write\` on ${machine.date}: ${machine.cpu}, ` +
      `${machine.cores} cores, ${machine.memory_GiB} GiB, ${machine.system}; ${machine.versions}.`,
    '',
    '## Speed',
    '',
    `One generated print of ${size(bytes)} (\`demo/big-print.ts\`, seed 1, relative E) in the page cache,`,
    `read by each in a fresh process: ${rounds} rounds, in an order that moves on from round to round.`,
    `Wall time is of the whole process, start-up included; figures are medians. Speed is`,
    `${yardstick} = 1 in the same round. Every output is checked against the generator's truth.`,
    '',
    ...speedTable(speeds),
    '',
    ...speedAims(speeds),
    '',
    'Threads read ranges of one file for the draw alone (decision 0005): `read` and `check` tell times, too, and share',
    'their work by files and by stages instead.',
    '',
    ...largerLines(results),
    ...browserLines(results),
    ...manyLines(results),
    '## Memory and time of this reader by size',
    '',
    'Resident memory of the whole process, Node included; median of three runs.',
    '',
    ...memoryTable(memory),
    '',
    ...growthLines(memory),
    `To reach: under ${aims.memory_MB} MB whatever the size. Most seen ${worst_MB.toFixed(0)} MB: ` +
      `${met(worst_MB < aims.memory_MB)}.`,
    '',
    '## Start-up',
    '',
    ...startUpLines(startUp),
  ].join('\n')}\n`
}
