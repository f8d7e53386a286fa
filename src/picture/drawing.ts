/** How a line or a filling is drawn; what that looks like is said where it is drawn. */
export type Ink =
  /** Edge of what is there. */
  | 'outline'
  /** Edge of what the reel will not reach. */
  | 'rest'
  /** Filled as the filament that is laid down. */
  | 'filament'
  /** Laid down in one way, as wide as the bead, by the first, the second, any other tool. */
  | 'bead'
  | 'beadSecond'
  | 'beadOther'
  /** Lines of measure, and the marks on them. */
  | 'hair'
  | 'tick'
  /** A height that is told. */
  | 'dashed'
  /** Where something may happen. */
  | 'band'
  | 'change'

/** How words stand in a drawing. */
export type Lettering = 'label' | 'soft' | 'changeWord'

/** Lines, and what they enclose. */
export interface PathShape {
  readonly kind: 'path'
  readonly ink: Ink
  /** Data of an SVG path with M, L, H, V and Z alone, px. */
  readonly d: string
  /** `#rrggbb`, or hatched; as the ink has it unless given. */
  readonly fill?: string
  /** Only what lies between these, px. */
  readonly between?: { readonly top: number; readonly bottom: number }
  /** Width of the line, px; as the ink has it unless given. */
  readonly width?: number
}

/** Words. */
export interface TextShape {
  readonly kind: 'text'
  readonly lettering: Lettering
  readonly x: number
  /** Of the line that the letters stand on, px. */
  readonly y: number
  readonly text: string
  readonly anchor: 'start' | 'middle' | 'end'
}

/** What is drawn, the hindmost first; px, downwards from the upper left corner. */
export interface Drawing {
  readonly width: number
  readonly height: number
  /** The same in words, for who does not see it. */
  readonly said: string
  readonly shapes: readonly (PathShape | TextShape)[]
}

/** Filling of what has no colour of its own. */
export const hatched = 'hatched'
