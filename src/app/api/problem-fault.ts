import type { ProblemJson } from '../../contract/index.ts'

/** The server's refusal of what was asked. */
export class ProblemFault extends Error {
  readonly problem: ProblemJson

  constructor(problem: ProblemJson) {
    super(problem.detail)
    this.problem = problem
  }
}

/** The server could not be reached: what was asked may be asked again. */
export class OutOfTouch extends Error {}

/** Whether the server asks to log in first, by what it refused or by what came of that. */
export const asksToLogIn = (error: unknown): boolean =>
  error instanceof ProblemFault
    ? error.problem.code === 'log_in_needed'
    : error instanceof Error && asksToLogIn(error.cause)
