export { highsSolver } from './highs-solver.ts'
