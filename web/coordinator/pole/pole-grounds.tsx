import type { PoleAssessment } from '#domain/avian/assessment/pole-assessment.ts'
import type { BirdSettings } from '#domain/avian/bird-settings.ts'
import { designSpecies } from '#domain/avian/species/shipped-species.ts'
import { HowSure } from '../../birds/how-sure.tsx'

interface Props {
  readonly assessment: PoleAssessment
  readonly settings: BirdSettings | undefined
}

/** What the assessment rests on: guidance, notes of the record, and what was taken for granted. */
export function PoleGrounds({ assessment, settings }: Props) {
  const species = designSpecies(settings)
  const assumptions = assessment.poleTop?.assumptions ?? []
  return (
    <section className="stack" aria-label="What this rests on">
      <h3>What this rests on</h3>
      {assessment.notes.length > 0 && (
        <ul className="bird-facts">
          {assessment.notes.map((note) => (
            <li key={note}>{note}</li>
          ))}
        </ul>
      )}
      <p className="small">
        Held against {species.name}: <HowSure {...species.breadth} />. A pair counts where a bird
        bridges it from a place to stand within its own breadth of both parts.{' '}
        <HowSure
          sureness="assumption"
          source="Birds touch parts while they land and leave; taking the whole breadth errs on the safe side."
        />
      </p>
      {assumptions.length > 0 && (
        <details>
          <summary>Taken for granted in the drawing ({assumptions.length})</summary>
          <ul className="bird-facts small">
            {assumptions.map((assumption) => (
              <li key={assumption}>
                {assumption} <HowSure sureness="common practice, no source" />
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  )
}
