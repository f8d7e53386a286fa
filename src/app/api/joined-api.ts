import type { KeptJson } from '../../contract/index.ts'
import { printRowOf } from '../../ledger/index.ts'
import { drawDoubtIn, type PrintReading } from '../../print/index.ts'
import { serverWords } from '../strings/server-words.ts'
import type { Api, PrintToCheck } from './api.ts'
import { askForMatch } from './ask-for-match.ts'
import { copyWithStops } from './copy-with-stops.ts'
import { followChanges } from './follow-changes.ts'
import { printId } from './print-id.ts'
import { OutOfTouch, ProblemFault } from './problem-fault.ts'
import { problemIn } from './problem-in.ts'
import { sendFile } from './send-file.ts'

/** So many reels for a tool are told; their numbers count all. */
const mostShown = 100

const toNobody = (): void => undefined

/** The Api of the server that the page came from. */
export function joinedApi(): Api {
  // A file that was read anew with other answers is another reading.
  let kept = new WeakMap<PrintReading, Promise<string>>()
  // Of the ledger that the page shows: nothing goes to one that took its place.
  let ledger: string | undefined
  /** Tells whoever follows that a request did not reach the server. */
  let doubt = toNobody
  const heeded =
    <A extends readonly unknown[], R>(asking: (...told: A) => Promise<R>) =>
    async (...told: A): Promise<R> => {
      try {
        return await asking(...told)
      } catch (error) {
        if (error instanceof OutOfTouch) doubt()
        throw error
      }
    }
  const sending = sendTo(() => ledger)
  const send = <T>(...told: Parameters<typeof sending>): Promise<T> => heeded(sending<T>)(...told)
  const ask = <T>(method: string, path: string, body?: object): Promise<T> =>
    body === undefined
      ? send(method, path)
      : send(method, path, JSON.stringify(body), 'application/json')

  const keepPrint = (print: PrintToCheck): Promise<string> => {
    const id = printId(print)
    const { name: file, bytes, reading } = print
    const known = kept.get(reading)
    if (known !== undefined) return known
    const changed_at = new Date().toISOString()
    const keeping = ask('PUT', `/prints/${id.split('/').map(encodeURIComponent).join('/')}`, {
      ...printRowOf(reading, { id, file, bytes, changed_at }),
    }).then(() => id)
    kept.set(reading, keeping)
    // What was not kept is tried again the next time.
    keeping.catch(() => kept.delete(reading))
    return keeping
  }
  const asked = async (print: PrintToCheck): Promise<object> => ({
    print: await keepPrint(print),
    cut_short: drawDoubtIn(print.reading.findings) !== undefined,
    ...(print.printer !== undefined && { printer: print.printer }),
    ...(print.firmware !== undefined && { firmware: print.firmware }),
  })

  return {
    shelf: (all = false) => ask('GET', all ? '/reels?all=true' : '/reels'),
    reel: (id, then) =>
      ask(
        'GET',
        `/reels/${encodeURIComponent(id)}${then === undefined ? '' : `?${new URLSearchParams({ ...then })}`}`,
      ),
    life: (id) => ask('GET', `/reels/${encodeURIComponent(id)}/life`),
    addReels: (told) => ask('POST', '/reels', told),
    checkShelf: async (print, { everyReel = false, afterLayer, material } = {}) =>
      ask('POST', '/checks/shelf', {
        ...(await asked(print)),
        ...(print.diameter_mm !== undefined && { diameter_mm: print.diameter_mm }),
        ...(everyReel ? { all: true } : { most: mostShown }),
        ...(afterLayer !== undefined && { after_layer: afterLayer }),
        ...(material !== undefined && { material }),
      }),
    checkReels: async (print, reels) =>
      ask('POST', '/checks/reels', { ...(await asked(print)), reels }),
    keepPrint,
    weigh: (told) => ask('POST', '/weighings', told),
    draw: (told) => ask('POST', '/draws', told),
    measure: (told) => ask('POST', '/measurements', told),
    event: (told) => ask('POST', '/events', told),
    dataSheet: (told) => ask('POST', '/data-sheets', told),
    putRight: (told) => ask('POST', '/put-rights', told),
    slate: () => ask('GET', '/slate'),
    addWaiting: (told) => ask('POST', '/slate', told),
    changeWaiting: (waiting, told) => ask('PATCH', `/slate/${encodeURIComponent(waiting)}`, told),
    running: () => ask('GET', '/running'),
    startRunning: (told) => ask('POST', '/running', told),
    changeRunning: (id, told) => ask('PATCH', `/running/${encodeURIComponent(id)}`, told),
    match: heeded(askForMatch),
    keepPlan: (choices) => ask('PUT', '/plan', { choices }),
    copyWithStops: heeded(copyWithStops),
    rows: (kind) => ask('GET', `/rows/${kind}`),
    addRow: (kind, row) => ask('POST', `/rows/${kind}`, row),
    changeRow: (kind, row, told) => ask('PATCH', `/rows/${kind}/${encodeURIComponent(row)}`, told),
    makeFacts: (make) => ask('GET', `/makes/${encodeURIComponent(make)}/facts`),
    learnt: () => ask('GET', '/learnt'),
    priors: () => ask('GET', '/priors'),
    setPrior: (key, own) => ask('PUT', `/priors/${encodeURIComponent(key)}`, { own }),
    importLedger: (lines, isDryRun) =>
      send('POST', isDryRun ? '/import?dry_run=true' : '/import', lines, 'application/x-ndjson'),
    tableHead: (csv) => ask('POST', '/import/table-head', { csv }),
    importTable: (table) => ask('POST', '/import/table', table),
    restore: (backup, how = {}) =>
      heeded(sendFile<KeptJson>)('/restore', backup, 'application/vnd.sqlite3', how),
    loadDemo: () => ask('POST', '/demo'),
    removeDemo: () => ask('DELETE', '/demo'),
    follow: (told) => {
      const following = followChanges((touch) => {
        const shown = touch.inTouch ? `${touch.change.ledger_id}/${touch.change.ledger}` : ledger
        // The server that is found again may be another. What it said first names the one asked before.
        if (!touch.inTouch || (ledger !== undefined && shown !== ledger)) kept = new WeakMap()
        ledger = shown
        told(touch)
      })
      doubt = following.doubt
      return following.stop
    },
    session: () => ask('GET', '/session'),
    logIn: (pass_phrase) => ask('POST', '/session', { pass_phrase }),
    logOut: () => ask('DELETE', '/session'),
    tokens: () => ask('GET', '/tokens'),
    addToken: (name, may) => ask('POST', '/tokens', { name, may }),
    removeToken: (id) => ask('DELETE', `/tokens/${encodeURIComponent(id)}`),
  }
}

/**
 * The server and this page are of one make: its answers are taken to be what `contract` says, and its
 * schemas stay out of the page.
 */
const sendTo =
  (ledgerOf: () => string | undefined) =>
  async <T>(method: string, path: string, body?: string | Blob, type?: string): Promise<T> => {
    const ledger = ledgerOf()
    let response: Response
    try {
      response = await fetch(`/api${path}`, {
        method,
        ...(body !== undefined && { body }),
        headers: {
          ...(type !== undefined && { 'content-type': type }),
          ...(ledger !== undefined && { 'reelreckon-ledger': ledger }),
        },
      })
    } catch {
      throw new OutOfTouch(serverWords.outOfReach)
    }
    const json: unknown = await response.json().catch(() => null)
    if (response.ok) return json as T
    throw new ProblemFault(problemIn(json, response.status))
  }
