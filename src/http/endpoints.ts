import { accessEndpoints } from './access-endpoints.ts'
import { catalogueEndpoints } from './catalogue-endpoints.ts'
import { checkEndpoints } from './check-endpoints.ts'
import { copyEndpoints } from './copy-endpoints.ts'
import type { Endpoint } from './endpoint.ts'
import { factEndpoints } from './fact-endpoints.ts'
import { ledgerEndpoints } from './ledger-endpoints.ts'
import { matchEndpoints } from './match-endpoints.ts'
import { pictureEndpoints } from './picture-endpoints.ts'
import { printEndpoints } from './print-endpoints.ts'
import { reelEndpoints } from './reel-endpoints.ts'
import { runningEndpoints } from './running-endpoints.ts'
import { slateEndpoints } from './slate-endpoints.ts'
import { tableEndpoints } from './table-endpoints.ts'

/** Everything the API can do, in the order in which it is told. */
export const endpoints: readonly Endpoint[] = [
  ...reelEndpoints,
  ...checkEndpoints,
  ...factEndpoints,
  ...catalogueEndpoints,
  ...slateEndpoints,
  ...runningEndpoints,
  ...matchEndpoints,
  ...printEndpoints,
  ...pictureEndpoints,
  ...copyEndpoints,
  ...ledgerEndpoints,
  ...tableEndpoints,
  ...accessEndpoints,
]
