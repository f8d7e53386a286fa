export { type StandingFacts, standingFacts } from './standing-facts.ts'
