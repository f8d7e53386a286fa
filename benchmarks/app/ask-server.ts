// Clients of a server, in a process of their own: node ask-server.ts PORT CLIENTS QUESTIONS PRINTS
//
// Each asks which reels of the shelf could do a print, on a connection of its own, and again as soon as it
// is answered. All are connected before the first of them asks: Node lets one in at each turn of its loop, and
// clients of a bench do not all come in the same millisecond. Prints of so many lengths go round among them. The clients take as little of the machine as
// they can, since the server shares it: answers are received, and not read. Prints a line of JSON: times
// in ms, sorted; the first question about each printer, added up; and the processor's time of this process
// for each question, ms.
import { Agent, request } from 'node:http'

const [port = '', clients = '', questions = '', prints = ''] = process.argv.slice(2)
const printers = ['Gull', 'Skiff', 'Tern']
const agent = new Agent({ keepAlive: true })
const times: number[] = []
let asked = 0

const ask = (one = asked++): Promise<number> => {
  const from = performance.now()
  const length_mm = 20_000 + ((one * 7919) % Number(prints)) * (80_000 / Number(prints))
  const body = JSON.stringify({ length_mm, printer: printers[one % printers.length], most: 100 })
  const { promise, resolve, reject } = Promise.withResolvers<number>()
  const headers = { 'content-type': 'application/json', 'content-length': Buffer.byteLength(body) }
  const address = { host: '127.0.0.1', port, path: '/api/checks/shelf', method: 'POST' }
  const asking = request({ ...address, agent, headers }, (response) => {
    if (response.statusCode !== 200) reject(new Error(`status ${response.statusCode}`))
    response.on('end', () => resolve(performance.now() - from)).resume()
  })
  asking.on('error', reject).end(body)
  return promise
}

/** Opens a connection, which stays open: by a question that costs the server nothing. */
const connect = (): Promise<void> => {
  const { promise, resolve, reject } = Promise.withResolvers<void>()
  const address = { host: '127.0.0.1', port, path: '/healthz' }
  const asking = request({ ...address, agent }, (response) => {
    if (response.statusCode !== 200) reject(new Error(`status ${response.statusCode}`))
    response.on('end', resolve).resume()
  })
  asking.on('error', reject).end()
  return promise
}

const client = async (): Promise<void> => {
  while (asked < Number(questions)) {
    // A client asks one thing at a time.
    // oxlint-disable-next-line no-await-in-loop -- a client asks again once it is answered
    times.push(await ask())
  }
}

// What the shelf holds is reckoned at the first question after something was written, and what is left
// of that for each printer at the first about it.
let first = 0
for (const one of printers.keys()) {
  // oxlint-disable-next-line no-await-in-loop -- one after the other
  first += await ask(one)
}
await Promise.all(Array.from({ length: Number(clients) }, connect))
const before = process.cpuUsage()
await Promise.all(Array.from({ length: Number(clients) }, client))
const { user, system } = process.cpuUsage(before)
agent.destroy()
const cpu = (user + system) / 1000 / times.length
console.log(JSON.stringify({ times: times.toSorted((a, b) => a - b), first, cpu }))
