import type { ProblemJson } from '../../contract/index.ts'

/** The problem that the server told; where it told none, that it did not. */
export const problemIn = (json: unknown, status: number): ProblemJson =>
  isProblem(json)
    ? json
    : {
        type: 'about:blank',
        title: 'Error',
        status,
        code: 'failed',
        detail: `The server answered with status ${status} and no reason.`,
      }

const isProblem = (json: unknown): json is ProblemJson =>
  typeof json === 'object' && json !== null && 'detail' in json && 'code' in json
