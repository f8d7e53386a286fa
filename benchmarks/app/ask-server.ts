// Clients of a server, in a process of their own: node ask-server.ts PORT CLIENTS QUESTIONS PRINTS
//
// Each asks which reels of the shelf could do a print, and again as soon as it is answered. Prints of
// so many lengths go round among them. Prints a line of JSON: times in ms, sorted.
const [port = '', clients = '', questions = '', prints = ''] = process.argv.slice(2)
const printers = ['Gull', 'Skiff', 'Tern']
const times: number[] = []
let asked = 0

const ask = async (): Promise<number> => {
  const one = asked++
  const from = performance.now()
  const length_mm = 20_000 + ((one * 7919) % Number(prints)) * (80_000 / Number(prints))
  const response = await fetch(`http://127.0.0.1:${port}/api/checks/shelf`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ length_mm, printer: printers[one % printers.length], most: 100 }),
  })
  const text = await response.text()
  if (response.status !== 200) throw new Error(text)
  return performance.now() - from
}

const client = async (): Promise<void> => {
  while (asked < Number(questions)) {
    // A client asks one thing at a time.
    // oxlint-disable-next-line no-await-in-loop
    times.push(await ask())
  }
}

// What the shelf holds is reckoned at the first question after something was written.
await ask()
await Promise.all(Array.from({ length: Number(clients) }, client))
console.log(JSON.stringify(times.toSorted((a, b) => a - b)))
