import type { PoleAssessment } from '#domain/avian/assessment/pole-assessment.ts'
import type { BirdSettings } from '#domain/avian/bird-settings.ts'
import { designSpecies, sizeOf } from '#domain/avian/species/shipped-species.ts'
import { inBothUnits } from '../../birds/both-units.ts'
import { HowSure } from '../../birds/how-sure.tsx'
import { showWorking } from '../../state/working.ts'
import { Button } from '../../ui/button.tsx'
import { IndexClass } from './index-class.tsx'
import { pairWorking } from './pair-working.ts'

interface Props {
  readonly assessment: PoleAssessment
  readonly settings: BirdSettings | undefined
}

/** What the assessment rests on: guidance, notes of the record, and what was taken for granted. */
export function PoleGrounds({ assessment, settings }: Props) {
  const species = designSpecies(settings)
  const size = sizeOf(species, settings)
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
      <p>
        Held against the {species.name}: {inBothUnits(size.breadthM)} across or{' '}
        {inBothUnits(size.heightM)} up and down; reaching either is enough.
      </p>
      <p className="soft small">
        {species.breadth.source}. How sure: {species.breadth.sureness}. {species.note}
      </p>
      <p className="small">
        A pair counts where a bird bridges it from a place to stand within its own breadth of both
        parts.{' '}
        <HowSure
          sureness="assumption"
          source="Birds touch parts while they land and leave; taking the whole breadth errs on the safe side."
        />
      </p>
      {assessment.poleTop && <IndexClass poleTop={assessment.poleTop} settings={settings} />}
      <div>
        <Button look="plain" onClick={() => showWorking(pairWorking(assessment, species, size))}>
          Show the working
        </Button>
      </div>
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
