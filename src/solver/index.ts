export { highsSolver } from './highs-solver.ts'
export { MatchFault, matchInThread, type ThreadOptions } from './match-in-thread.ts'
