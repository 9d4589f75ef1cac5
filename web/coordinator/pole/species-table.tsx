import type { SpeciesResult } from '#domain/avian/assessment/pole-assessment.ts'
import type { BirdSettings } from '#domain/avian/bird-settings.ts'
import { birdSpecies } from '#domain/avian/species/shipped-species.ts'
import { gapInUnits } from '../../birds/gap-words.ts'
import { HowSure } from '../../birds/how-sure.tsx'
import { useSelection } from '../../state/selection.ts'

interface Props {
  readonly results: readonly SpeciesResult[]
  readonly settings: BirdSettings | undefined
}

/** What each bird could bridge here, folded away. */
export function SpeciesTable({ results, settings }: Props) {
  const { units } = useSelection()
  const species = birdSpecies(settings)
  return (
    <details>
      <summary>Each species on this pole</summary>
      <table className="species-table">
        <thead>
          <tr>
            <th scope="col">Bird</th>
            <th scope="col">Pairs</th>
            <th scope="col">Tightest</th>
          </tr>
        </thead>
        <tbody>
          {results.map(({ speciesId, pairs, tightest }) => {
            const bird = species.find(({ id }) => id === speciesId)
            return (
              <tr key={speciesId}>
                <th scope="row">
                  {bird?.name ?? speciesId}
                  {bird && (
                    <>
                      <br />
                      <span className="soft small">
                        {gapInUnits(bird.breadth.valueM, units)} ×{' '}
                        {gapInUnits(bird.height.valueM, units)} <HowSure {...bird.breadth} />
                      </span>
                    </>
                  )}
                </th>
                <td className="figure">{pairs}</td>
                <td>
                  {tightest
                    ? `${tightest.partA.label} to ${tightest.partB.label}, ${gapInUnits(tightest.distanceM, units)}`
                    : 'none'}
                </td>
              </tr>
            )
          })}
        </tbody>
      </table>
    </details>
  )
}
