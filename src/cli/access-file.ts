import { mkdir, readFile, rename, writeFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import type { KeptToken } from '../http/index.ts'
import { exitCode, Fault } from './fault.ts'
import type { KeptPassPhrase } from './pass-phrase.ts'

/** Who may use a server on this ledger. */
export interface KeptAccess {
  readonly passPhrase?: KeptPassPhrase
  readonly tokens: readonly KeptToken[]
}

/** Beside the ledger, so that another ledger has another pass-phrase. */
const fileIn = (folder: string): string => join(folder, 'access.json')

/** @throws Fault where the file can not be read */
export const readAccess = async (folder: string): Promise<KeptAccess> => {
  const file = fileIn(folder)
  try {
    const { passPhrase, tokens = [] } = JSON.parse(await readFile(file, 'utf8')) as {
      readonly passPhrase?: KeptPassPhrase
      readonly tokens?: readonly (Omit<KeptToken, 'may'> & Partial<KeptToken>)[]
    }
    return {
      ...(passPhrase && { passPhrase }),
      // One that was made before it was told what for may what it might then.
      tokens: tokens.map((token) => Object.assign({ may: 'set_up' as const }, token)),
    }
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return { tokens: [] }
    throw new Fault(exitCode.ledger, {
      code: 'access_unreadable',
      message: `${file} can not be read, so nobody could log in. Remove it and set a pass-phrase up anew.`,
    })
  }
}

/** Whole or not at all, and for this person only. */
export const writeAccess = async (folder: string, access: KeptAccess): Promise<void> => {
  const file = fileIn(folder)
  await mkdir(dirname(file), { recursive: true, mode: 0o700 })
  const draft = `${file}.${process.pid}`
  await writeFile(draft, `${JSON.stringify(access, null, 2)}\n`, { mode: 0o600 })
  await rename(draft, file)
}
