import { printRowOf } from '../../ledger/index.ts'
import type { Api, PrintToCheck, ReelOfTool } from './api.ts'
import { OutOfTouch, ProblemFault } from './problem-fault.ts'
import { problemIn } from './problem-in.ts'
import { sendFile } from './send-file.ts'

/** The Api of the server that the page came from. */
export function joinedApi(): Api {
  const kept = new Map<string, Promise<string>>()

  const keepPrint = (print: PrintToCheck): Promise<string> => {
    const id = idOf(print)
    const known = kept.get(id)
    if (known !== undefined) return known
    const { name: file, bytes, reading } = print
    const changed_at = new Date().toISOString()
    const keeping = ask('PUT', `/prints/${id.split('/').map(encodeURIComponent).join('/')}`, {
      ...printRowOf(reading, { id, file, bytes, changed_at }),
    }).then(() => id)
    kept.set(id, keeping)
    // What was not kept is tried again the next time.
    keeping.catch(() => kept.delete(id))
    return keeping
  }
  const asked = async (print: PrintToCheck): Promise<{ print: string; cut_short: boolean }> => ({
    print: await keepPrint(print),
    cut_short: print.reading.findings.some(({ code }) => code === 'maybe_cut_short'),
  })

  return {
    shelf: (all = false) => ask('GET', all ? '/reels?all=true' : '/reels'),
    reel: (id) => ask('GET', `/reels/${encodeURIComponent(id)}`),
    life: (id) => ask('GET', `/reels/${encodeURIComponent(id)}/life`),
    addReels: (told) => ask('POST', '/reels', told),
    checkShelf: async (print) => ask('POST', '/checks/shelf', await asked(print)),
    checkReels: async (print, reels) =>
      ask('POST', '/checks/reels', { ...(await asked(print)), reels: reels.map(reelAsked) }),
    keepPrint,
    weigh: (told) => ask('POST', '/weighings', told),
    draw: (told) => ask('POST', '/draws', told),
    measure: (told) => ask('POST', '/measurements', told),
    event: (told) => ask('POST', '/events', told),
    dataSheet: (told) => ask('POST', '/data-sheets', told),
    putRight: (told) => ask('POST', '/put-rights', told),
    rows: (kind) => ask('GET', `/rows/${kind}`),
    addRow: (kind, row) => ask('POST', `/rows/${kind}`, row),
    changeRow: (kind, row, told) => ask('PATCH', `/rows/${kind}/${encodeURIComponent(row)}`, told),
    learnt: () => ask('GET', '/learnt'),
    priors: () => ask('GET', '/priors'),
    setPrior: (key, own) => ask('PUT', `/priors/${encodeURIComponent(key)}`, { own }),
    importLedger: (lines, isDryRun) =>
      send('POST', isDryRun ? '/import?dry_run=true' : '/import', lines, 'application/x-ndjson'),
    tableHead: (csv) => ask('POST', '/import/table-head', { csv }),
    importTable: (table) => ask('POST', '/import/table', table),
    restore: (backup, sending = {}) =>
      sendFile('/restore', backup, 'application/vnd.sqlite3', sending),
    session: () => ask('GET', '/session'),
    logIn: (pass_phrase) => ask('POST', '/session', { pass_phrase }),
    logOut: () => ask('DELETE', '/session'),
    tokens: () => ask('GET', '/tokens'),
    addToken: (name) => ask('POST', '/tokens', { name }),
    removeToken: (id) => ask('DELETE', `/tokens/${encodeURIComponent(id)}`),
  }
}

const idOf = ({ sha256, member }: PrintToCheck): string =>
  member === null ? sha256 : `${sha256}/${member}`

const reelAsked = ({ tool, reel, gross_g }: ReelOfTool): object => ({
  tool,
  reel,
  ...(gross_g !== undefined && { weighing: { reading_g: gross_g } }),
})

const ask = <T>(method: string, path: string, body?: object): Promise<T> =>
  body === undefined
    ? send(method, path)
    : send(method, path, JSON.stringify(body), 'application/json')

/**
 * The server and this page are of one make: its answers are taken to be what `contract` says, and its
 * schemas stay out of the page.
 */
const send = async <T>(
  method: string,
  path: string,
  body?: string | Blob,
  type?: string,
): Promise<T> => {
  let response: Response
  try {
    response = await fetch(`/api${path}`, {
      method,
      ...(body !== undefined && { body }),
      ...(type !== undefined && { headers: { 'content-type': type } }),
    })
  } catch {
    throw new OutOfTouch('The server can not be reached.')
  }
  const json: unknown = await response.json().catch(() => null)
  if (response.ok) return json as T
  throw new ProblemFault(problemIn(json, response.status))
}
