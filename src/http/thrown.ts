import { StoreFault } from '../store/index.ts'
import { DomainError, type Refusal } from '../units/index.ts'
import { NotFound } from './endpoint.ts'

/**
 * What was thrown, as a refusal; what nobody expected is logged, and not told to who asks.
 *
 * @returns the refusal, and its status where that is not the one of its code
 */
export const refusalOfThrown = (error: unknown): [refusal: Refusal, status?: number] => {
  if (error instanceof NotFound) return [error.refusal, 404]
  if (error instanceof StoreFault) return [error.refusal]
  if (error instanceof DomainError) return [{ code: error.code, message: error.message }]
  console.error(error)
  return [{ code: 'failed', message: 'Something went wrong in the server; its log has more.' }, 500]
}
