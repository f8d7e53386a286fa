import { randomBytes } from 'node:crypto'
import { once } from 'node:events'
import { putRight, shelfView } from '../../src/service/index.ts'
import { openStore } from '../../src/store/index.ts'

// A program that puts a fact right once its standard input says so, and prints what came of it:
// `node put-right-racing.ts FOLDER FACT GRAMS`. A test runs two of them at once.

const [folder = '', fact = '', grams = ''] = process.argv.slice(2)
const opened = await openStore(folder, { create: false })
if (!opened.ok) throw new Error(opened.refusal.message)
const store = opened.value
const handed = { store, now: () => Date.now(), randomByte: () => randomBytes(1)[0]! }
// All the code is loaded and the view made before the start.
await shelfView(store)
process.stdout.write('ready\n')
await once(process.stdin, 'data')
const outcome = await putRight(handed, {
  fact,
  reason: 'misread',
  mass_g: { value: Number(grams), u: 0 },
  accept: true,
})
process.stdout.write(outcome.ok ? 'accepted' : outcome.refusal.code)
await store.close()
process.exit()
