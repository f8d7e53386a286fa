import type { FeedState } from './feed-state.ts'
import type { FirmwareFamily } from './firmware-family.ts'
import type { Head } from './move-words.ts'
import { Track } from './track.ts'

/** A family with the track that stands for it, and its state on a line. */
export interface FamilyHead extends Head {
  readonly track: Track
}

/** The tracks of a file: one for all families while they agree, more while they do not. */
export class TrackGroup {
  #tracks: Track[]
  readonly #families: readonly FirmwareFamily[]

  constructor(families: readonly FirmwareFamily[], state: FeedState) {
    this.#families = families
    this.#tracks = [new Track([...families], state)]
  }

  get all(): readonly Track[] {
    return this.#tracks
  }

  /** The track that decides layers and stops: the reference family's. */
  get first(): Track {
    return this.#tracks[0] as Track
  }

  /** Whether one state stands for all families. */
  get single(): boolean {
    return this.#tracks.length === 1
  }

  /** One head a track. */
  heads(): Head[] {
    return this.#tracks.map(({ families, state }) => ({
      family: families[0] as FirmwareFamily,
      state,
    }))
  }

  /** One head a family, in the order of the families. */
  headsOfFamilies(): FamilyHead[] {
    return this.#families.map((family) => {
      const track = this.#tracks.find((each) => each.families.includes(family)) as Track
      return { family, track, state: track.state }
    })
  }

  /** Splits and joins: families whose states are equal, with an equal past, share a track. */
  regroup(heads: readonly FamilyHead[]): void {
    const groups: Track[] = []
    const used = new Set<Track>()
    for (const { family, track, state } of heads) {
      const group = groups.find((each) => each.state.equals(state) && each.sharesPast(track))
      if (group !== undefined) {
        group.families.push(family)
      } else if (used.has(track)) {
        groups.push(track.fork([family], state))
      } else {
        used.add(track)
        track.families = [family]
        track.state = state
        groups.push(track)
      }
    }
    this.#tracks = groups
  }

  /** G92 with an E number: all families take it alike, and it may be what makes them agree again. */
  setOrigin(value: number): void {
    for (const { state } of this.#tracks) state.e = state.targetOf(value)
    if (!this.single) this.regroup(this.headsOfFamilies())
  }

  /** Adds the curve rows that are due. */
  record(height: number, layer: number, byte: number, ask: () => number): void {
    for (const track of this.#tracks) {
      for (let tool = 0; tool < track.state.tools; tool++) {
        track.record(tool, height, layer, byte, ask)
      }
    }
  }

  endLayer(layer: number): void {
    for (const track of this.#tracks) track.endLayer(layer)
  }

  forgetLayers(): void {
    for (const track of this.#tracks) track.forgetLayers()
  }
}
