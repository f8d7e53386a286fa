import { argon2, createHash, randomBytes, timingSafeEqual } from 'node:crypto'
import { promisify } from 'node:util'

/** A pass-phrase as it is kept. */
export interface KeptPassPhrase {
  readonly algorithm: 'argon2id'
  readonly memory_kib: number
  readonly passes: number
  readonly parallelism: number
  /** Base64. */
  readonly salt: string
  /** Base64. */
  readonly tag: string
}

/** Fewest characters: a few words. */
export const shortestPassPhrase: number = 15

/** @see OWASP Password Storage Cheat Sheet, Argon2id: 19 MiB, 2 passes, 1 lane; from memory */
const usual = { algorithm: 'argon2id', memory_kib: 19 * 1024, passes: 2, parallelism: 1 } as const
const tagLength = 32

const derive = promisify(argon2)

type Parameters = Omit<KeptPassPhrase, 'salt' | 'tag'>

const tagOf = (
  typed: string,
  salt: Uint8Array,
  { algorithm, memory_kib, passes, parallelism }: Parameters,
): Promise<Buffer> =>
  derive(algorithm, {
    // The same words typed on another keyboard are the same.
    message: Buffer.from(typed.normalize('NFC')),
    nonce: salt,
    memory: memory_kib,
    passes,
    parallelism,
    tagLength,
  })

/** What to keep of a pass-phrase. */
export const keepPassPhrase = async (typed: string): Promise<KeptPassPhrase> => {
  const salt = randomBytes(16)
  const tag = await tagOf(typed, salt, usual)
  return { ...usual, salt: salt.toString('base64'), tag: tag.toString('base64') }
}

/** Whether it is the one that is kept. */
export const isPassPhrase = async (typed: string, kept: KeptPassPhrase): Promise<boolean> => {
  const tag = await tagOf(typed, Buffer.from(kept.salt, 'base64'), kept)
  const wanted = Buffer.from(kept.tag, 'base64')
  return tag.length === wanted.length && timingSafeEqual(tag, wanted)
}

/** Parts a pass-phrase that is kept from any that is set later, the same words included. */
export const phraseMark = (kept: KeptPassPhrase | undefined): string =>
  kept === undefined ? '' : createHash('sha256').update(`${kept.salt} ${kept.tag}`).digest('base64')
