import type { BirdSettings } from '#domain/avian/bird-settings.ts'
import type { Exposure } from '#domain/avian/exposure/exposure.ts'
import { incidentInWords } from '#domain/avian/incident-in-words.ts'
import { nearbyNests, nestInWords } from '#domain/avian/nest-proximity.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { Pole } from '#domain/feeder/pole.ts'
import { useMay } from '../../api/account.ts'
import { HowSure } from '../../birds/how-sure.tsx'
import { DayChoice } from '../day-choice.tsx'
import { RecordHere } from '../finds/record-here.tsx'
import { useSeasonDay } from '../season-day.ts'

interface Props {
  readonly pole: Pole
  /** With nests and finds as the record has them now. */
  readonly feeder: Feeder
  readonly settings: BirdSettings | undefined
  /** Null until it is computed. */
  readonly exposure: Exposure | null
}

/** Nests and finds around a pole, in words, and what makes birds likely there. */
export function BirdNeighbourhood({ pole, feeder, settings, exposure }: Props) {
  const day = useSeasonDay()
  if (!useMay('see nests and incidents')) {
    return (
      <section className="stack" aria-label="Nests and finds">
        <h3>Nests and finds</h3>
        <p className="soft">Not shown to readers: where nests and dead birds are is protected.</p>
      </section>
    )
  }
  const nests = nearbyNests(pole.at, feeder.nests, day, settings)
  const incidents = feeder.incidents.filter((incident) => incident.pole === pole.id)
  return (
    <section className="stack" aria-label="Nests and finds">
      <h3>Nests and finds</h3>
      {nests.length > 0 && <DayChoice />}
      {nests.length === 0 ? (
        <p className="soft">
          No recorded nest within half a mile, nor one whose buffer reaches here.
        </p>
      ) : (
        <ul className="bird-facts">
          {nests.map((near) => (
            <li key={near.nest.id}>
              {nestInWords(near)}{' '}
              <HowSure sureness={near.buffer.sureness} source={near.buffer.source} />
            </li>
          ))}
        </ul>
      )}
      {incidents.length === 0 ? (
        <p className="soft">No dead or injured bird is recorded at this pole.</p>
      ) : (
        <ul className="bird-facts">
          {incidents.map((incident) => (
            <li key={incident.id}>
              {incidentInWords(incident)} {incident.note}
            </li>
          ))}
        </ul>
      )}
      <RecordHere pole={pole.id} />
      {exposure && exposure.reasons.length > 0 && (
        <>
          <p>
            What makes birds likely here{' '}
            <HowSure
              sureness="assumption"
              source="Weights of what is near are judgement; they stand in the settings of the bird desk."
            />
          </p>
          <ul className="bird-facts">
            {exposure.reasons.map((reason) => (
              <li key={reason} className="first-capital">
                {reason}
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  )
}
