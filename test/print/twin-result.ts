import type { FirmwareFamilyId } from '../../src/print/index.ts'

/** What one tool does under one family; mm of filament. */
export interface TwinTool {
  readonly net_mm: number
  readonly peak_mm: number
  readonly startMacro_mm: number
  /** One entry a layer. */
  readonly layerEnd_mm: readonly number[]
}

export interface TwinStop {
  readonly kind: 'change' | 'pause' | 'end'
  /** 1-based line in the file. */
  readonly line: number
  /** 0 before the first layer. */
  readonly layer: number
  readonly draw_mm: ReadonlyMap<number, number>
}

export interface TwinLayers {
  readonly heights: readonly number[]
  readonly passes: number
  readonly spiral: boolean
}

export interface TwinReading {
  readonly ok: true
  readonly byFamily: ReadonlyMap<
    FirmwareFamilyId,
    { readonly tools: ReadonlyMap<number, TwinTool> }
  >
  readonly layers: TwinLayers
  readonly stops: readonly TwinStop[]
  readonly findingCodes: ReadonlySet<string>
  readonly lines: number
}

export interface TwinRefusal {
  readonly ok: false
  readonly code: string
  readonly line?: number
}

export type TwinResult = TwinReading | TwinRefusal
