import type { ToolJudged } from './check-to-json.ts'

/** The tool most likely to run dry. */
export const weakest = <T extends Pick<ToolJudged, 'verdict'>>(tools: readonly T[]): T =>
  tools.reduce((low, each) => (each.verdict.chance < low.verdict.chance ? each : low))
