import { createContext, use } from 'react'
import type { Api } from './api.ts'

/** The Api that the page was begun with. */
export const ApiContext: React.Context<Api | null> = createContext<Api | null>(null)

/** @throws Error outside `ApiContext` */
export function useApi(): Api {
  const api = use(ApiContext)
  if (api === null) throw new Error('The page was begun without an Api.')
  return api
}
