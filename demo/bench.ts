/** Display steps of the two scales at the bench. */
export type ScaleName = 'kitchen' | 'letter'

/** A scale of the bench. */
export interface BenchScale {
  readonly name: ScaleName
  readonly step_g: number
  readonly capacity_g: number
}

/** What is true of a printer and known to nobody at the bench. */
export interface HiddenPrinter {
  /** What it feeds for each millimetre asked. */
  readonly feedFactor: number
  /** Filament it uses before the file begins, mm a print and tool. */
  readonly startAllowance_mm: number
  /** Last length on a reel that it can not print, mm. */
  readonly tail_mm: number
}

/** A printer of the bench. */
export interface BenchPrinter {
  readonly name: string
  /** What people call it. */
  readonly nickname: string
  readonly tools: number
  readonly hidden: HiddenPrinter
}

/** Where the demo plays. Place, people, makers and printers are invented. */
export const bench: {
  readonly place: string
  readonly people: readonly string[]
  readonly scales: Readonly<Record<ScaleName, BenchScale>>
  readonly printers: { readonly gull: BenchPrinter; readonly pair: BenchPrinter }
} = {
  place: 'the Saturday repair bench in the net loft of Marrowick Harbour',
  people: ['Tilde Aske', 'Corwin Hobday', 'Mags Dunmarrow'],
  scales: {
    kitchen: { name: 'kitchen', step_g: 1, capacity_g: 5000 },
    letter: { name: 'letter', step_g: 0.01, capacity_g: 200 },
  },
  printers: {
    gull: {
      name: 'Pellwright 2',
      nickname: 'the Gull',
      tools: 1,
      hidden: { feedFactor: 1.006, startAllowance_mm: 0, tail_mm: 350 },
    },
    pair: {
      name: 'Quernby Twin',
      nickname: 'the Pair',
      tools: 2,
      hidden: { feedFactor: 0.994, startAllowance_mm: 40, tail_mm: 520 },
    },
  },
}
