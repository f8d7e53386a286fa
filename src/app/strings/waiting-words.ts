import { formatIsoMinute } from '../../units/index.ts'
import type { WaitingWeighing } from '../offline/browser-store.ts'
import { saidIn } from './said-in.ts'
import type { MassUnit } from './show-figure.ts'
import { weighingWords } from './weighing-words.ts'

const { plain } = weighingWords

const weighings = (count: number): string => (count === 1 ? 'One weighing' : `${count} weighings`)

/** Words about weighings made while the server could not be reached. */
export const waitingWords = {
  waits: (asksToLogIn: boolean): string =>
    asksToLogIn
      ? 'The server asks to log in. The weighing is sent when somebody has.'
      : 'The server can not be reached. The weighing is sent when it can.',
  /** @param others - of another ledger than the one shown */
  summary: (waiting: number, asking: number, others: number): string => {
    const sent = `${weighings(waiting)} ${waiting === 1 ? 'waits' : 'wait'} here for the server.`
    const asked = `${weighings(asking)} ${asking === 1 ? 'was' : 'were'} not taken: have a look.`
    const held = `${weighings(others)} ${others === 1 ? 'waits' : 'wait'} here for another ledger.`
    return [
      ...(waiting > 0 ? [sent] : []),
      ...(asking > 0 ? [asked] : []),
      ...(others > 0 ? [held] : []),
    ].join(' ')
  },
  weighing: ({ at, told }: WaitingWeighing, unit: MassUnit): string => {
    const { reel, make, weighing } = told
    const what = reel === undefined ? `an empty carrier of ${make ?? 'its make'}` : `reel ${reel}`
    return `${formatIsoMinute(at)}, ${what}: ${plain(weighing.reading_g, unit)}`
  },
  asks: ({ message, surprise }: NonNullable<WaitingWeighing['asks']>, unit: MassUnit): string => {
    if (surprise === undefined) return saidIn(message, unit)
    const [likeliest] = surprise.causes
    return likeliest === undefined ? weighingWords.noCauses : weighingWords.cause(likeliest, unit)
  },
  ofAnother:
    'It was made for another ledger than the one shown here, and goes there when that is served again.',
  sendHere: 'Send it to this one',
  accept: 'Take it as it is',
  again: 'Try again',
  leaveOut: 'Leave it out',
} as const
