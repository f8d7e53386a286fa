/**
 * Joins the compiled layers and the command line into a few files in dist/bundle, which is what the
 * package's exports and its command name: loading a hundred small files takes longer than a print.
 * Runs after `tsc -b`. Dependencies that nearly every command loads are joined in as well: to find and load
 * their hundreds of files takes longer than most commands. The others stay outside.
 */
import { readFile, rm, writeFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { rolldown } from 'rolldown'
import { harbourLedgerText } from '../demo/ledger/harbour.ts'

const fromRoot = (path: string): string => fileURLToPath(new URL(`../${path}`, import.meta.url))

const layers = ['units', 'filament', 'print', 'estimate', 'verdict', 'match', 'contract', 'ledger']
const entries = new Map(layers.map((layer) => [layer, fromRoot(`dist/${layer}/index.js`)]))
entries.set('main', fromRoot('dist/cli/main.js'))
entries.set('solver', fromRoot('dist/solver/index.js'))
// The reader as the command line uses it, for the benchmark: of one piece with the print layer.
entries.set('read-ahead', fromRoot('dist/cli/read-ahead.js'))
// Found by their names beside the files that start them.
entries.set('match-worker', fromRoot('dist/solver/match-worker.js'))
entries.set('part-worker', fromRoot('dist/solver/part-worker.js'))
for (const worker of ['hash-worker', 'planning-worker', 'png-worker', 'read-worker']) {
  entries.set(worker, fromRoot(`dist/cli/${worker}.js`))
}

const inside = ['@hono/node-server', 'commander', 'fflate', 'hono', 'kysely', 'zod']
const { dependencies } = JSON.parse(await readFile(fromRoot('package.json'), 'utf8')) as {
  dependencies: Record<string, string>
}

const licenses = await Promise.all(
  inside.map(async (name) => {
    const text = await readFile(fromRoot(`node_modules/${name}/LICENSE`), 'utf8')
    return { folder: `/node_modules/${name}/`, notice: `/*! ${name}: ${text}*/` }
  }),
)

await rm(fromRoot('dist/bundle'), { recursive: true, force: true })
const bundle = await rolldown({
  input: Object.fromEntries(entries),
  external: Object.keys(dependencies).filter((name) => !inside.includes(name)),
  platform: 'node',
})
await bundle.write({
  dir: fromRoot('dist/bundle'),
  format: 'esm',
  entryFileNames: '[name].js',
  chunkFileNames: 'part-[name]-[hash].js',
  // What the schemas are not made of stands apart: to load them with zod takes longer than to check a print.
  codeSplitting: {
    groups: [
      {
        name: 'light',
        test: /dist\/(contract\/(cautions|disagreement|may|row-common-json|short-id)|ledger\/(fact-bounds|calipers-of|exact-doubt))\.js$/,
      },
    ],
  },
  banner: ({ moduleIds }) =>
    licenses
      .filter(({ folder }) => moduleIds.some((id) => id.includes(folder)))
      .map(({ notice }) => notice)
      .join('\n'),
})
await bundle.close()
// What `serve --demo` fills its shelf with.
await writeFile(fromRoot('dist/bundle/demo.ndjson'), harbourLedgerText())
