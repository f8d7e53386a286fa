import type { Ink, Lettering } from './drawing.ts'

/** Colours of a sheet. */
export interface Ground {
  readonly paper: string
  readonly ink: string
  readonly inkSoft: string
  readonly accent: string
}

/** Ink on warm paper, as the app has it by day; test/picture/look.test.ts holds the two together. */
export const paperAndInk: Ground = {
  paper: '#f7f2e6',
  ink: '#1f2a33',
  inkSoft: '#56616a',
  accent: '#1c4fa0',
}

/** How an ink is drawn: a line, a filling, or both; widths and dashes in px. */
export interface InkLook {
  readonly stroke?: keyof Ground
  readonly width?: number
  readonly dash?: readonly [line: number, gap: number]
  readonly fill?: keyof Ground
  readonly opacity?: number
}

export const inks: Readonly<Record<Ink, InkLook>> = {
  outline: { stroke: 'ink', width: 1.5 },
  rest: { stroke: 'inkSoft', width: 1, dash: [3, 3], fill: 'paper' },
  filament: {},
  bead: { stroke: 'ink', width: 1 },
  beadSecond: { stroke: 'accent', width: 1 },
  beadOther: { stroke: 'inkSoft', width: 1 },
  hair: { stroke: 'inkSoft', width: 1 },
  tick: { stroke: 'ink', width: 1.5 },
  dashed: { stroke: 'ink', width: 1.5, dash: [6, 4] },
  band: { fill: 'ink', opacity: 0.16 },
  change: { stroke: 'accent', width: 1.5 },
}

export const letterings: Readonly<
  Record<Lettering, { readonly colour: keyof Ground; readonly size: number }>
> = {
  label: { colour: 'ink', size: 13 },
  soft: { colour: 'inkSoft', size: 12 },
  changeWord: { colour: 'accent', size: 13 },
}

/** Lines of a hatching rise to the right, this far apart, px. */
export const hatching = { apart: 7, width: 1, opacity: 0.5 } as const
