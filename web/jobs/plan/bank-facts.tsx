import type { Regulator } from '#domain/feeder/equipment.ts'
import type { BankWork } from '#domain/jobs/job-plan.ts'
import { length } from '../../state/format.ts'
import { useSelection } from '../../state/selection.ts'

/** The bank as it is to stand, and what stands there now. */
export function BankFacts({ bank }: { readonly bank: BankWork }) {
  const { regulator, standing, neutralV, loopOhm, elevationM } = bank
  const { units } = useSelection()
  const high = elevationM === undefined ? null : length(elevationM, units)
  return (
    <ul className="job-lines">
      <li>{unitsInWords(regulator)}</li>
      {standing && standing.id !== regulator.id && (
        <li>Stands there now: {unitsInWords(standing)}</li>
      )}
      <li>
        {neutralV.toFixed(0)} V from phase to neutral; {loopOhm} Ω taken for the loop that a bypass
        closes.
      </li>
      <li>
        {high
          ? `${high.value} ${high.unit} above sea level.`
          : 'Height above sea level is not known; the approach distance is that below 3,000 ft.'}
      </li>
    </ul>
  )
}

function unitsInWords({ phases, ratingKva, ratingA, windingType, span, pole }: Regulator): string {
  const rating = [
    ratingKva !== undefined && `${ratingKva} kVA`,
    ratingA !== undefined && `${ratingA} A`,
  ].filter((words) => words !== false)
  const size = rating.length > 0 ? rating.join(', ') : 'rating not recorded'
  return `${phases.length} × ${size}, type ${windingType}, phases ${phases.split('').join(' ')}, at pole ${pole}, span ${span}.`
}
