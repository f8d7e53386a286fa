import { type FSWatcher, type Stats, watch } from 'node:fs'
import { stat } from 'node:fs/promises'
import { printsInFolder } from './prints-in-folder.ts'

/** What is told of a folder that is followed. */
export interface FolderTold {
  /** A file is whole, as far as can be seen, and new or another than before. */
  readonly ready: (file: string) => void
  /** A file that was told of is no longer there. */
  readonly gone: (file: string) => void
  /** The folder can not be looked into, or can again. */
  readonly reachable: (error: unknown) => void
  /** There are more prints than are followed: only so many are. */
  readonly crowded: (most: number) => void
}

/** What may be told otherwise than is usual. */
export interface FollowerChoice {
  readonly deep: boolean
  /** Most prints followed. */
  readonly most?: number
  /** Milliseconds of the clock by which files are dated. */
  readonly now?: () => number
  /** Where the system tells of changes; a stand-in for it in tests. */
  readonly watchFolder?: typeof watch
}

/** Prints followed at most; of more only the first by name. */
const usualMost = 20_000
/** A file that nobody has written for so long is whole, ms. */
const quiet = 1500
/** Written so long ago it need not be watched first, ms. */
const old = 10_000
/** How soon to look again, ms: where the system told of a change, while a file is being written, */
const atNudge = 100
const soon = 500
/** while the system would tell of changes, and while it would not. */
const seldom = 10_000
const often = 2000
/** Looking may take this part of the time, at most. */
const share = 0.1
/** Folders of whose changes the system is asked to tell; it has few to give. */
const mostWatched = 128
const atOnce = 32

interface Followed {
  /** What tells this content of the file from another. */
  mark: string
  /** When it was first seen so. */
  since: number
  /** When it was last written or put there, by the file system's own clock. */
  changed: number
  /** Not told of before. */
  notBefore: number
  isTold: boolean
  /** Of this content of it, or one before. */
  wasTold: boolean
}

/**
 * Follows the prints in a folder: looks at it again and again, at names, sizes and times, which works
 * everywhere. Where the system tells of changes it looks sooner; that may fail, or miss some, without
 * harm.
 */
export class FolderFollower {
  readonly #folder: string
  readonly #told: FolderTold
  readonly #deep: boolean
  readonly #most: number
  readonly #now: () => number
  readonly #watchFolder: typeof watch
  readonly #files = new Map<string, Followed>()
  readonly #watchers = new Map<string, FSWatcher>()
  #isReachable = true
  #isCrowded = false
  #mayWatch = true
  #timer: ReturnType<typeof setTimeout> | undefined
  #looking: Promise<void> | undefined
  /** The system told of a change since the last look began. */
  #nudged = false
  #stopped = false

  constructor(
    folder: string,
    told: FolderTold,
    { deep, most = usualMost, now = Date.now, watchFolder = watch }: FollowerChoice,
  ) {
    this.#folder = folder
    this.#told = told
    this.#deep = deep
    this.#most = most
    this.#now = now
    this.#watchFolder = watchFolder
  }

  /** Whether a file is still as it was when it was told to be ready. */
  isCurrent(file: string, mark: string | undefined): boolean {
    return mark !== undefined && this.#files.get(file)?.mark === mark
  }

  /** What tells this content of a file from another; undefined where it is not followed. */
  markOf(file: string): string | undefined {
    return this.#files.get(file)?.mark
  }

  /** Whether a file was written a short while ago, so that it may not be whole. */
  isYoung(file: string): boolean {
    const followed = this.#files.get(file)
    return followed !== undefined && Math.abs(this.#now() - followed.changed) < 12 * old
  }

  /** Tells of a file once more, though it is as before, after a while. */
  again(file: string, wait: number): void {
    const followed = this.#files.get(file)
    if (followed === undefined) return
    followed.isTold = false
    followed.notBefore = this.#now() + wait
  }

  /** Looks once, and from then on again and again. */
  async follow(): Promise<void> {
    await this.look()
    this.#plan()
  }

  /** Looks at the folder as it is now. */
  look(): Promise<void> {
    this.#looking ??= this.#look().finally(() => {
      this.#looking = undefined
    })
    return this.#looking
  }

  async stop(): Promise<void> {
    this.#stopped = true
    clearTimeout(this.#timer)
    for (const watcher of this.#watchers.values()) watcher.close()
    this.#watchers.clear()
    await this.#looking
  }

  #plan(wait = this.#wait()): void {
    if (this.#stopped) return
    clearTimeout(this.#timer)
    this.#timer = setTimeout(() => {
      const begun = performance.now()
      this.#nudged = false
      void this.look().then(() => {
        const took = performance.now() - begun
        return this.#plan(Math.max(this.#wait(), took / share))
      })
    }, wait)
  }

  #nudge(): void {
    this.#nudged = true
    if (this.#looking === undefined) this.#plan(atNudge)
  }

  #wait(): number {
    if (this.#nudged) return atNudge
    for (const { isTold } of this.#files.values()) if (!isTold) return soon
    return this.#mayWatch && this.#watchers.size > 0 ? seldom : often
  }

  async #look(): Promise<void> {
    let found: Awaited<ReturnType<typeof printsInFolder>>
    try {
      found = await printsInFolder(this.#folder, this.#deep, this.#most)
    } catch (error) {
      this.#lose(error)
      return
    }
    if (this.#stopped) return
    if (!this.#isReachable) this.#told.reachable(undefined)
    this.#isReachable = true
    if (found.tooMany && !this.#isCrowded) this.#told.crowded(this.#most)
    this.#isCrowded = found.tooMany
    this.#watch(found.folders)
    const there = new Set(found.files)
    for (const [file, { wasTold }] of this.#files) {
      if (there.has(file)) continue
      this.#files.delete(file)
      if (wasTold) this.#told.gone(file)
    }
    for (let from = 0; from < found.files.length; from += atOnce) {
      const some = found.files.slice(from, from + atOnce)
      // oxlint-disable-next-line no-await-in-loop -- a few at a time: there may be very many
      const states = await Promise.all(some.map(stateOf))
      if (this.#stopped) return
      for (const [place, state] of states.entries()) {
        if (state !== undefined) this.#see(some[place]!, state)
      }
    }
  }

  #see(file: string, { size, mtimeMs, ctimeMs, ino, dev }: Stats): void {
    const now = this.#now()
    const mark = `${dev}:${ino}:${size}:${mtimeMs}:${ctimeMs}`
    const changed = Math.max(mtimeMs, ctimeMs)
    const known = this.#files.get(file)
    if (known?.mark !== mark) {
      const { wasTold = false } = known ?? {}
      this.#files.set(file, { mark, since: now, changed, notBefore: 0, isTold: false, wasTold })
    }
    const followed = this.#files.get(file)!
    if (followed.isTold || now < followed.notBefore) return
    // A clock that is ahead of ours says nothing of how long ago it was.
    const isOld = followed.changed <= now && now - followed.changed >= old
    if (!isOld && now - followed.since < quiet) return
    followed.isTold = true
    followed.wasTold = true
    this.#told.ready(file)
  }

  #lose(error: unknown): void {
    if (this.#isReachable) this.#told.reachable(error)
    this.#isReachable = false
    this.#files.clear()
    this.#watch([])
  }

  /** Asks the system to tell of changes in these folders, and in no others. */
  #watch(folders: readonly string[]): void {
    const wanted = new Set(folders.slice(0, mostWatched))
    for (const [folder, watcher] of this.#watchers) {
      if (wanted.has(folder)) continue
      watcher.close()
      this.#watchers.delete(folder)
    }
    if (folders.length > mostWatched) this.#mayWatch = false
    for (const folder of wanted) {
      if (this.#watchers.has(folder) || !this.#mayWatch) continue
      try {
        const watcher = this.#watchFolder(folder, { persistent: false }, () => this.#nudge())
        watcher.on('error', () => this.#unwatch(folder))
        this.#watchers.set(folder, watcher)
      } catch {
        // The system tells of no more folders, or of none on this file system: looking must do.
        this.#mayWatch = false
      }
    }
  }

  #unwatch(folder: string): void {
    this.#watchers.get(folder)?.close()
    this.#watchers.delete(folder)
  }
}

/** Undefined where it has vanished since it was listed. */
const stateOf = (file: string): Promise<Stats | undefined> =>
  stat(file).then(
    (state) => (state.isFile() ? state : undefined),
    () => undefined,
  )
