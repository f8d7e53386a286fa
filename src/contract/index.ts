export {
  type AlternativeJson,
  type CheckJson,
  checkJson,
  type RunDryPointJson,
  type ToolCheckJson,
} from './check-json.ts'
export { type ErrorJson, errorJson } from './error-json.ts'
export { type FindingJson, findingJson } from './finding-json.ts'
export { type MeasuredJson, measuredJson } from './measured-json.ts'
export {
  type ReadJson,
  type ReadPrintJson,
  type ReadToolJson,
  readJson,
  readPrintJson,
} from './read-json.ts'
