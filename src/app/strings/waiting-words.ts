import type { WaitingWeighing } from '../offline/browser-store.ts'
import type { MassUnit } from './show-figure.ts'
import { weighingWords } from './weighing-words.ts'

const { plain } = weighingWords

const weighings = (count: number): string => (count === 1 ? 'One weighing' : `${count} weighings`)

/** Words about weighings made while the server could not be reached. */
export const waitingWords = {
  summary: (waiting: number, asking: number): string => {
    const sent = `${weighings(waiting)} ${waiting === 1 ? 'waits' : 'wait'} here for the server.`
    const asked = `${weighings(asking)} ${asking === 1 ? 'was' : 'were'} not taken: have a look.`
    return [...(waiting > 0 ? [sent] : []), ...(asking > 0 ? [asked] : [])].join(' ')
  },
  weighing: ({ at, told, ledger }: WaitingWeighing, unit: MassUnit): string => {
    const { reel, make, weighing } = told
    const what = reel === undefined ? `an empty carrier of ${make ?? 'its make'}` : `reel ${reel}`
    const when = new Date(at).toLocaleString('en-GB', { dateStyle: 'medium', timeStyle: 'short' })
    const whose = ledger === 'demo' ? ', of the demo shelf' : ''
    return `${when}, ${what}${whose}: ${plain(weighing.reading_g, unit)}`
  },
  accept: 'Take it as it is',
  again: 'Try again',
  leaveOut: 'Leave it out',
} as const
