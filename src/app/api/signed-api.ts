import type { SaidRequest } from '../../contract/index.ts'
import type { Api } from './api.ts'

/**
 * The same Api with the name of whoever writes under every fact that names nobody.
 *
 * @param writer - id of the person who writes here; null where nobody is named
 */
export function signedApi(api: Api, writer: () => Promise<string | null>): Api {
  const signed =
    <T extends SaidRequest, R>(send: (told: T) => Promise<R>) =>
    async (told: T): Promise<R> => {
      const by = told.by ?? (await writer())
      return send(by === null ? told : { ...told, by })
    }
  const weigh = signed(api.weigh)
  return {
    ...api,
    addReels: signed(api.addReels),
    // A test writes nothing down.
    weigh: (told) => (told.test === true ? api.weigh(told) : weigh(told)),
    draw: signed(api.draw),
    measure: signed(api.measure),
    event: signed(api.event),
    dataSheet: signed(api.dataSheet),
    putRight: signed(api.putRight),
  }
}
