import type { PrintReading } from './reading.ts'

/** How a print file is packed. */
export type Container = 'plain' | 'gzip' | 'zip'

/** A print of a print file. */
export interface PrintOfFile {
  /** Name of the member in a zip; null where there is no container, or one without names. */
  readonly name: string | null
  readonly reading: PrintReading
}

/** A file as a person gives it: machine code, or a container with at least one print in it. */
export interface PrintFile {
  readonly container: Container
  readonly prints: readonly PrintOfFile[]
}
