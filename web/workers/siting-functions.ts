import type { Feeder } from '#domain/feeder/feeder.ts'
import {
  type ChosenPlace,
  judgePlaces,
  type PlaceJudge,
  type PlacesJudged,
  preparePlaces,
} from '#domain/siting/judge-places.ts'
import { SiteRequest } from '#domain/siting/site-request.ts'

let held: Feeder | null = null
/** The last request and what was laid out for it, as a bank is moved many times. */
let prepared: { readonly key: string; readonly judge: PlaceJudge | string } | null = null

/** What the worker does. The feeder is null where it is the one that was handed over last. */
export const sitingFunctions = {
  judge(feeder: Feeder | null, request: SiteRequest, places: readonly ChosenPlace[]): PlacesJudged {
    if (feeder) {
      held = feeder
      prepared = null
    }
    if (!held) throw new Error('Expected a feeder to be held by the worker.')
    const key = JSON.stringify(request)
    if (prepared?.key !== key) {
      prepared = { key, judge: preparePlaces(held, SiteRequest.parse(request)) }
    }
    const { judge } = prepared
    return typeof judge === 'string'
      ? { status: 'not judged', what: judge }
      : judgePlaces(judge, places)
  },
}
