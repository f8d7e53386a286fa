/**
 * Compiles the reader's hot loop (core/plain-lines.ts, AssemblyScript) to WebAssembly and writes it
 * into src/print/plain-lines-code.ts. Run it after every change there: `npm run core`.
 */
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { main as asc } from 'assemblyscript/asc'

const source = fileURLToPath(new URL('../core/plain-lines.ts', import.meta.url))
const target = fileURLToPath(new URL('../src/print/plain-lines-code.ts', import.meta.url))

/** The text of src/print/plain-lines-code.ts as the source makes it. */
export async function compileCore(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'reelreckon-core-'))
  try {
    const file = join(folder, 'core.wasm')
    const flags = ['-O3', '--runtime', 'stub', '--noAssert', '--enable', 'simd']
    const memory = ['--initialMemory', '26', '--use', 'abort=']
    const { error } = await asc([source, ...flags, ...memory, '-o', file], {
      stderr: process.stderr,
    })
    if (error !== null) throw error
    const code = (await readFile(file)).toString('base64')
    return [
      '/** Made from core/plain-lines.ts by `npm run core`; never edited. */',
      `export const plainLinesCode: string =\n  '${code}'`,
      '',
    ].join('\n')
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const text = await compileCore()
  await writeFile(target, text)
  console.log(`src/print/plain-lines-code.ts: ${text.length} characters`)
}
