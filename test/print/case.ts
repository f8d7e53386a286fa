import type { FirmwareFamilyId, ReadOptions } from '../../src/print/index.ts'

/** Net and peak of a tool, mm. One number where they are the same. */
export type Feed = number | readonly [net: number, peak: number]
export type Feeds = Readonly<Record<number, Feed>>

/**
 * What a program draws: under `all` families, with the exceptions named. A tool that feeds nothing
 * is left out.
 */
export type ExpectedDraw = { readonly all?: Feeds } & {
  readonly [family in FirmwareFamilyId]?: Feeds
}

/** A small program and the answer, worked out by hand. */
export interface Case {
  readonly name: string
  readonly code: string | Uint8Array
  readonly options?: ReadOptions
  readonly draw?: ExpectedDraw
  /** Heights of the layers, mm, as the reference family finds them. */
  readonly heights?: readonly number[]
  readonly passes?: number
  readonly spiral?: boolean
  /** By tool, reference family, mm. */
  readonly startMacro?: Readonly<Record<number, number>>
  /** By tool, reference family, mm. */
  readonly layerEnd?: Readonly<Record<number, readonly number[]>>
  readonly stops?: readonly {
    readonly kind: 'change' | 'pause' | 'end'
    readonly line: number
    readonly layer: number
    /** Draw of tool 0, mm. */
    readonly draw: number
  }[]
  readonly lines?: number
  /** Codes of findings that must be there. */
  readonly must?: readonly string[]
  /** Codes of findings that must not. */
  readonly mustNot?: readonly string[]
}

export const toBytes = (code: string | Uint8Array): Uint8Array =>
  typeof code === 'string' ? new TextEncoder().encode(code) : code

/** Lines to a program, each ended by LF. */
export const program = (...lines: readonly string[]): string => `${lines.join('\n')}\n`

export const families: readonly FirmwareFamilyId[] = [
  'community',
  'community-1',
  'meta',
  'host',
  'textfile',
]

export const feedPair = (feed: Feed): readonly [net: number, peak: number] =>
  typeof feed === 'number' ? [feed, Math.max(0, feed)] : feed
