import type { Case } from './case.ts'
import { courseCases } from './cases-course.ts'
import { feedCases } from './cases-feed.ts'

/** The one table that goes through the fast reader and the twin. */
export const cases: readonly Case[] = [...feedCases, ...courseCases]
