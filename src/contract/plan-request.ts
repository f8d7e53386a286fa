import { z } from 'zod'
import { type PlanChoiceJson, planChoices } from './waiting-json.ts'

/** A plan that is to be kept. */
export interface PlanRequest {
  readonly choices: readonly PlanChoiceJson[]
}

/** Schema of `PlanRequest`. */
export const planRequest: z.ZodType<PlanRequest> = z
  .strictObject({ choices: planChoices.describe('which reel for which print; none: no plan') })
  .meta({ id: 'plan_request' })

/** The plan that was kept last. */
export interface PlanJson extends PlanRequest {
  readonly kept_at: string | null
}

/** Schema of `PlanJson`. */
export const planJson: z.ZodType<PlanJson> = z
  .strictObject({
    choices: planChoices.describe('which reel for which print'),
    kept_at: z.string().nullable().describe('when; null where no plan was ever kept'),
  })
  .meta({ id: 'kept_plan' })
