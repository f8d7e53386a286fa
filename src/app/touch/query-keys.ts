import type { Query } from '@tanstack/react-query'

/** Under which the page keeps who it is, and what of. */
export const sessionKey = ['session'] as const

/** Under which somebody logs out. */
export const logOutKey = ['log-out'] as const

/** Whether what a query fetched is the ledger's: every other than the session's is. */
export const isOfLedger = ({ queryKey }: Query): boolean => queryKey[0] !== sessionKey[0]

/** Under which the page keeps the prints that run. */
export const runningKey = ['running'] as const
