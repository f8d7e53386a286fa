import type { WaitingWeighing } from '../offline/browser-store.ts'
import { type MassUnit, showMass } from './show-figure.ts'

const weighings = (count: number): string => (count === 1 ? 'One weighing' : `${count} weighings`)

/** Words about weighings made while the server could not be reached. */
export const waitingWords = {
  summary: (waiting: number, asking: number): string => {
    const sent = `${weighings(waiting)} ${waiting === 1 ? 'waits' : 'wait'} here for the server.`
    const asked = `${weighings(asking)} ${asking === 1 ? 'was' : 'were'} not taken: have a look.`
    return [...(waiting > 0 ? [sent] : []), ...(asking > 0 ? [asked] : [])].join(' ')
  },
  weighing: ({ at, told }: WaitingWeighing, unit: MassUnit): string => {
    const { reel, make, weighing } = told
    const what = reel === undefined ? `an empty carrier of ${make ?? 'its make'}` : `reel ${reel}`
    return `${at.slice(0, 16).replace('T', ' ')} UTC, ${what}: ${showMass({ value: weighing.reading_g, u: 0 }, unit)}`
  },
  accept: 'Take it as it is',
  leaveOut: 'Leave it out',
} as const
