/** The workers that read one file. */
export interface ReadingWorkers {
  readonly reader: Worker
  readonly hasher: Worker
}

let ahead: ReadingWorkers | null = null

const begin = (): ReadingWorkers => ({
  reader: new Worker(new URL('./reading-worker.ts', import.meta.url), { type: 'module' }),
  hasher: new Worker(new URL('./hashing-worker.ts', import.meta.url), { type: 'module' }),
})

/** Begins the workers of the next file before there is one: it need not wait for them. */
export function beginAhead(): void {
  if (ahead !== null) return
  const workers = begin()
  ahead = workers
  // Where they can not be fetched now, it is tried again when a file is there.
  const drop = (): void => {
    if (ahead === workers) ahead = null
  }
  workers.reader.addEventListener('error', drop)
  workers.hasher.addEventListener('error', drop)
}

/** The workers that were begun ahead, or new ones; whoever takes them ends them. */
export function takeWorkers(): ReadingWorkers {
  const workers = ahead ?? begin()
  ahead = null
  return workers
}
