// Prints the tables of demo/README.md: node demo/story.ts
import { demoPrints } from './prints/index.ts'
import type { BenchReel, KnownTare } from './reel.ts'
import { reels } from './reels.ts'
import { situations, trueEnds } from './situations.ts'

/** A Markdown table with its columns lined up, as the formatter of the project leaves it. */
const table = (heads: readonly string[], rows: readonly (readonly string[])[]): string => {
  const widths = heads.map((head, column) =>
    Math.max(head.length, 3, ...rows.map((row) => row[column]?.length ?? 0)),
  )
  const line = (cells: readonly string[], fill: string): string =>
    `| ${cells.map((cell, column) => cell.padEnd(widths[column] ?? 0, fill)).join(' | ')} |`
  const rule = line(
    heads.map(() => ''),
    '-',
  )
  return [line(heads, ' '), rule, ...rows.map((row) => line(row, ' '))].join('\n')
}

const metres = (mm: number): string => `${(mm / 1000).toFixed(3)} m`

const sayTare = (tare: KnownTare): string => {
  switch (tare.by) {
    case 'weighed':
      return `${tare.tare_g} g, weighed`
    case 'kind':
      return tare.kind
    case 'nothing':
      return 'not known'
    default:
      return tare satisfies never
  }
}

const sayRest = ({ known }: BenchReel): string =>
  [
    known.grossNew_g === undefined ? '' : `${known.grossNew_g} g when new`,
    known.labelNet_g === undefined ? '' : `label ${known.labelNet_g} g`,
    known.density_gPerCm3 === undefined ? '' : `${known.density_gPerCm3} g/cm³`,
    known.diameterPairs_mm === undefined
      ? ''
      : `calipers at ${known.diameterPairs_mm.length} places`,
    known.cut === undefined ? '' : `${known.cut.length_mm} mm weighed ${known.cut.mass_g} g`,
  ]
    .filter((part) => part !== '')
    .join(', ')

const printTable = (): string =>
  table(
    ['print', 'draws', 'layers', 'what it is'],
    demoPrints.map(({ name, description, truth }) => [
      name,
      truth.tools.map(({ peak_mm }) => metres(peak_mm)).join(' and '),
      String(truth.layers),
      description,
    ]),
  )

const reelTable = (): string =>
  table(
    ['reel', 'maker and material', 'gross', 'carrier', 'also known', 'how it came'],
    Object.values<BenchReel>(reels).map((reel) => [
      reel.name,
      `${reel.maker} ${reel.material}`,
      `${reel.known.gross_g} g`,
      sayTare(reel.known.tare),
      sayRest(reel),
      reel.story,
    ]),
  )

const situationTable = (): string =>
  table(
    ['situation', 'meant to be', 'why', 'what would truly happen'],
    situations.map((situation) => [
      situation.name,
      situation.meant,
      situation.why,
      trueEnds(situation)
        .map(({ available_mm, needed_mm, finishes }) => {
          const figures = `${metres(needed_mm)} of ${metres(available_mm)}`
          return `${finishes ? 'finishes' : 'runs dry'}: ${figures}`
        })
        .join('; '),
    ]),
  )

/** Prints, reels and situations as three tables. */
export const storyTables = (): string =>
  [
    '### The prints',
    printTable(),
    '### The reels, as the bench knows them',
    reelTable(),
    '### What people want to start',
    situationTable(),
  ].join('\n\n')

if (import.meta.main) console.log(storyTables())
