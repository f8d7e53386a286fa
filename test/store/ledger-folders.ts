import { closeSync, mkdirSync, mkdtempSync, openSync, rmSync, writeSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll } from 'vitest'
import { openStore, type Store } from '../../src/store/index.ts'
import { known, opening, weighing } from './records.ts'
import { valueOf } from './store-suite.ts'

/** Gives a new, empty folder at each call; after the tests of the file all of them are removed. */
export const folders = (name: string): (() => string) => {
  const home = mkdtempSync(join(tmpdir(), `reelreckon-${name}-`))
  afterAll(() => rmSync(home, { recursive: true }))
  let count = 0
  return () => {
    const folder = join(home, String(count++))
    mkdirSync(folder)
    return folder
  }
}

/** A ledger with a reel in it that was weighed so often. */
export const filledStore = async (folder: string, weighings: number): Promise<Store> => {
  const store = valueOf(await openStore(folder))
  const many = Array.from({ length: weighings }, (_, place) => weighing(place + 1))
  valueOf(await store.append([...known, opening(), ...many]))
  return store
}

/** Writes over bytes of a file. */
export const spoil = (file: string, at: number, bytes: Uint8Array): void => {
  const descriptor = openSync(file, 'r+')
  writeSync(descriptor, bytes, 0, bytes.length, at)
  closeSync(descriptor)
}
