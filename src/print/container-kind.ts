import { stopContainer } from './container-limits.ts'
import type { Container } from './print-file.ts'

/** Bytes by which a container is known. */
export const magicLength = 4

/** What a file is by its first bytes. */
export function containerOf(head: Uint8Array): Container {
  const [a, b, c, d] = head
  if (a === 0x1f && b === 0x8b) return 'gzip'
  if (a !== 0x50 || b !== 0x4b) return 'plain'
  // A member, the end of an empty zip, or the mark of a zip in parts.
  if ((c === 3 && d === 4) || (c === 5 && d === 6)) return 'zip'
  if ((c === 7 && d === 8) || (c === 0x30 && d === 0x30)) {
    return stopContainer(
      'container_multi_part',
      'The zip is one of several parts. Join or unpack them and give the machine code.',
    )
  }
  return 'plain'
}
