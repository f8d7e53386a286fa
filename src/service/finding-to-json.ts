import type { FindingJson } from '../contract/index.ts'
import type { Finding } from '../print/index.ts'

/** A finding on the wire. */
export const findingToJson = ({
  code,
  severity,
  line,
  byte,
  count,
  message,
}: Finding): FindingJson => ({
  code,
  severity,
  line,
  byte,
  count,
  message,
})
