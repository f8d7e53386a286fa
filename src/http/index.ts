export { type Listening, listen, remoteAddress } from './listen.ts'
export { type App, makeApp } from './make-app.ts'
export { type OpenApiDocument, type OpenApiOperation, openApi } from './openapi.ts'
export type {
  Access,
  KeptToken,
  PausedCopyServed,
  PictureAsked,
  PictureServed,
  ReadingServed,
  ServedLedger,
  Surroundings,
} from './surroundings.ts'
