import type { ProblemJson } from '../contract/index.ts'
import type { Refusal } from '../units/index.ts'

const titles: Readonly<Record<number, string>> = {
  400: 'Bad Request',
  401: 'Unauthorized',
  403: 'Forbidden',
  404: 'Not Found',
  405: 'Method Not Allowed',
  409: 'Conflict',
  413: 'Content Too Large',
  415: 'Unsupported Media Type',
  421: 'Misdirected Request',
  422: 'Unprocessable Content',
  429: 'Too Many Requests',
  500: 'Internal Server Error',
  503: 'Service Unavailable',
  507: 'Insufficient Storage',
}

/** Statuses of refusals that are not simply a request which makes no sense (422). */
const statusOf: Readonly<Record<string, number>> = {
  not_found: 404,
  busy: 503,
  in_use: 503,
  read_only: 503,
  damaged: 500,
  disk_failed: 500,
  disk_full: 507,
  id_taken: 409,
  name_taken: 409,
  nothing_changed: 409,
  fact_void: 409,
  run_dry_surprising: 409,
  measure_surprising: 409,
  demo_in_place: 409,
  ledger_exchanged: 409,
  too_large: 413,
}

/** Why there is no answer, as problem details. @see RFC 9457 */
export const problemOf = (
  { code, message, expected, received, line }: Refusal,
  status: number = statusOf[code] ?? 422,
): ProblemJson => ({
  type: 'about:blank',
  title: titles[status] ?? 'Error',
  status,
  detail: message,
  code,
  ...(expected !== undefined && { expected }),
  ...(received !== undefined && { received }),
  ...(line !== undefined && { line }),
})

/** The answer that says why there is none. */
export const problem = (
  refusal: Refusal,
  status?: number,
  headers: Readonly<Record<string, string>> = {},
): Response => {
  const body = problemOf(refusal, status)
  return new Response(JSON.stringify(body), {
    status: body.status,
    headers: {
      'content-type': 'application/problem+json',
      'cache-control': 'no-store',
      ...headers,
    },
  })
}
