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
