const day = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', year: 'numeric' })
const clock = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit' })

/** A moment of the ledger as a day by the clock of this machine: `18 Oct 2025`. */
export const sayDay = (moment: string): string => day.format(new Date(moment))

/** The same with the hour: `18 Oct 2025, 14:30`. */
export const sayMoment = (moment: string): string =>
  `${sayDay(moment)}, ${clock.format(new Date(moment))}`
