import { randomBytes } from 'node:crypto'
import { once } from 'node:events'
import { addRow, type HandedIn, putRight, shelfView } from '../../src/service/index.ts'
import { openStore } from '../../src/store/index.ts'
import type { Outcome } from '../../src/units/index.ts'

// A program that writes something down once its standard input says so, and prints what came of it:
// `node racing.ts FOLDER put-right FACT GRAMS` or `node racing.ts FOLDER add-printer NAME`. A test runs
// two of them at once.

const [folder = '', job = '', ...words] = process.argv.slice(2)

const jobs: Readonly<Record<string, (handed: HandedIn) => Promise<Outcome<unknown>>>> = {
  'put-right': (handed) =>
    putRight(handed, {
      fact: words[0] ?? '',
      reason: 'misread',
      mass_g: { value: Number(words[1]), u: 0 },
      accept: true,
    }),
  'add-printer': (handed) => addRow(handed, 'printer', { name: words[0] ?? '' }),
}

const opened = await openStore(folder, { create: false })
if (!opened.ok) throw new Error(opened.refusal.message)
const store = opened.value
const handed = { store, now: () => Date.now(), randomByte: () => randomBytes(1)[0]! }
// All the code is loaded and the view made before the start.
await shelfView(store)
process.stdout.write('ready\n')
await once(process.stdin, 'data')
const outcome = await jobs[job]!(handed)
process.stdout.write(outcome.ok ? 'accepted' : outcome.refusal.code)
await store.close()
process.exit()
