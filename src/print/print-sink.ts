/** Where a container's prints go, one after another. */
export interface PrintSink {
  /** A print begins. @param name - of the member; null where it has none */
  readonly open: (name: string | null) => void
  readonly write: (bytes: Uint8Array) => void
  readonly close: () => void
}

/** Takes a container apart; both methods throw `ReadStop`. */
export interface ContainerSource {
  readonly push: (bytes: Uint8Array) => void
  readonly finish: () => void
}
