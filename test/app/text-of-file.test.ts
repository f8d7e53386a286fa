import { gzipSync } from 'node:zlib'
import { expect, test } from 'vitest'
import { textOfFile } from '../../src/app/set-up/text-of-file.ts'

const lines = '{"kind":"person"}\nMöwe\n'

test('a file is read as it is, and out of gzip by its first bytes', async () => {
  for (const bytes of [Buffer.from(lines), gzipSync(lines)]) {
    // oxlint-disable-next-line no-await-in-loop -- one file after another
    expect(await textOfFile(new Blob([bytes]))).toEqual({ ok: true, value: lines })
  }
})

test('what unpacks to too much, is damaged or no text is refused with why', async () => {
  const damaged = gzipSync(lines)
  damaged[damaged.length - 6]! ^= 1
  const codes = await Promise.all(
    [gzipSync(Buffer.alloc(65 * 2 ** 20)), damaged, Buffer.from(lines, 'latin1')].map(
      async (bytes) => {
        const text = await textOfFile(new Blob([bytes]))
        return text.ok ? text : text.refusal.code
      },
    ),
  )
  expect(codes).toEqual(['too_large', 'gzip_damaged', 'not_utf8'])
})
