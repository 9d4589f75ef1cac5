import { type Asker, mayDo } from '#contract/rights.ts'
import { surroundingsOfLand } from '#domain/avian/exposure/surroundings-of-land.ts'
import { designSpecies, sizeOf } from '#domain/avian/species/shipped-species.ts'
import { Incident } from '#domain/feeder/birds.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { BIRD_POLE_COLUMNS, birdPoleRows } from './bird-pole-rows.ts'
import type { IncidentRecord } from './bird-ports.ts'
import { findFeeder } from './find-feeder.ts'
import { type PlacedFile, type PlacedRow, placedRows } from './placed-rows.ts'
import type { Ports } from './ports.ts'
import { recordedFeeder } from './recorded-feeder.ts'
import { Refusal } from './refusal.ts'

type As = PlacedFile['as']

const JUDGEMENT =
  'Hazard, exposure and rank are judgement; costs are assumptions unless the utility entered them. The agency decides on nests and permits. Covers protect birds from brief contact; they do not insulate people.'

/** The bird record as files for other programs. Both tell where birds nest or were hurt. */
export function birdFileService({ store, clock }: Pick<Ports, 'store' | 'clock'>) {
  return {
    /** @throws Refusal `not-found`, `not-allowed` */
    poles: async (asker: Asker, feederId: string, as: As): Promise<AsyncIterable<string>> => {
      refuseUnseeing(asker)
      const { feeder, version } = await recordedFeeder(store, feederId)
      const [choices, { settings }, land] = await Promise.all([
        store.poleTops.list(feederId),
        store.birdSettings.get(),
        store.land.find(feeder.header.place ?? ''),
      ])
      const at = clock()
      const surroundings = land ? surroundingsOfLand(land) : undefined
      const rows = birdPoleRows({ feeder, choices, settings, surroundings, today: at.slice(0, 10) })
      const species = designSpecies(settings)
      const { breadthM, heightM } = sizeOf(species, settings)
      const about = {
        ...outlineOf(feeder, version, at),
        designSpecies: { id: species.id, name: species.name, breadthM, heightM },
        note: JUDGEMENT,
      }
      return placedRows(rows, { as, columns: BIRD_POLE_COLUMNS, about })
    },

    /** @throws Refusal `not-found`, `not-allowed` */
    incidents: async (asker: Asker, feederId: string, as: As): Promise<AsyncIterable<string>> => {
      refuseUnseeing(asker)
      const { feeder, version } = await findFeeder(store, feederId)
      const incidents = await store.incidents.list(feederId)
      const about = outlineOf(feeder, version, clock())
      return placedRows(incidentRows(incidents), { as, columns: INCIDENT_COLUMNS, about })
    },
  }
}

/** A machine's token may be limited to less than its role. */
function refuseUnseeing(asker: Asker): void {
  if (mayDo(asker, 'see nests and incidents')) return
  throw new Refusal('not-allowed', 'The file tells of nests and incidents, which may not be seen.')
}

function outlineOf({ header }: Feeder, version: number, at: string) {
  const { id, name, coordinates } = header
  return { feeder: id, name, version, takenOutAt: at, coordinates }
}

type Field = Exclude<keyof Incident, 'id' | 'at'>

/** Every field that a find may have, so that a new one is taken out as well. */
const FIELDS = Object.keys(Incident.shape).filter(
  (key): key is Field => key !== 'id' && key !== 'at',
)
const INCIDENT_COLUMNS = [...FIELDS.map(snakeCase), 'changed_by', 'changed_at']

async function* incidentRows(incidents: readonly IncidentRecord[]): AsyncGenerator<PlacedRow> {
  for (const incident of incidents) {
    const fields = FIELDS.map((field) => [snakeCase(field), incident[field]])
    const { id, at, changedBy, changedAt } = incident
    const changed = { changed_by: changedBy.id, changed_at: changedAt }
    yield { id, at, properties: { ...Object.fromEntries(fields), ...changed } }
  }
}

/** "outageMin" as "outage_min". */
function snakeCase(name: string): string {
  return name.replaceAll(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`)
}
