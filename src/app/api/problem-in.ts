import type { ProblemJson } from '../../contract/index.ts'
import { serverWords } from '../strings/server-words.ts'

/** The problem that the server told; where it told none, that it did not. */
export const problemIn = (json: unknown, status: number): ProblemJson =>
  isProblem(json)
    ? json
    : {
        type: 'about:blank',
        title: serverWords.failed,
        status,
        code: 'failed',
        detail: serverWords.noReason(status),
      }

const isProblem = (json: unknown): json is ProblemJson =>
  typeof json === 'object' && json !== null && 'detail' in json && 'code' in json
