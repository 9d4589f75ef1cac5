import type { BirdPole } from '#domain/avian/pole-urgency.ts'
import { incidentInWords, nestInWords } from '#domain/avian/urgency-reasons.ts'
import { useMay } from '../api/account.ts'
import { MonthChoice } from './month-choice.tsx'

/** Nests and finds around a pole, in words. */
export function BirdNeighbourhood({ found }: { readonly found: BirdPole }) {
  if (!useMay('see nests and incidents')) {
    return (
      <section className="stack" aria-label="Nests and finds">
        <h3>Nests and finds</h3>
        <p className="soft">Not shown to readers: where nests and dead birds are is protected.</p>
      </section>
    )
  }
  return (
    <section className="stack" aria-label="Nests and finds">
      <h3>Nests and finds</h3>
      {found.nests.length > 0 && <MonthChoice />}
      {found.nests.length === 0 ? (
        <p className="soft">
          No recorded nest within half a mile, nor one whose buffer reaches here.
        </p>
      ) : (
        <ul className="bird-facts">
          {found.nests.map((near) => (
            <li key={near.nest.id}>{nestInWords(near)}</li>
          ))}
        </ul>
      )}
      {found.incidents.length === 0 ? (
        <p className="soft">No dead or injured bird is recorded at this pole.</p>
      ) : (
        <ul className="bird-facts">
          {found.incidents.map((incident) => (
            <li key={incident.id}>
              {incidentInWords(incident)} {incident.note}
            </li>
          ))}
        </ul>
      )}
    </section>
  )
}
