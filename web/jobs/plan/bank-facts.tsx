import type { Regulator } from '#domain/feeder/equipment.ts'
import { isBypassed } from '#domain/feeder/is-bypassed.ts'
import type { JobKind } from '#domain/jobs/job-kind.ts'
import type { BankWork } from '#domain/jobs/job-plan.ts'
import { lineVoltsInWords } from '#domain/units/rounded-volts.ts'
import { length } from '../../state/format.ts'
import { useSelection } from '../../state/selection.ts'
import { bankStanding, standingInWords } from './bank-standing.ts'
import { neutralSideInWords, serialsInWords } from './unit-words.ts'

interface Props {
  readonly kind: JobKind
  readonly bank: BankWork
}

/** The bank as it is to stand, and what stands there now. */
export function BankFacts({ kind, bank }: Props) {
  const { regulator, standing, neutralV, loopOhm, elevationM } = bank
  const { units } = useSelection()
  const high = elevationM === undefined ? null : length(elevationM, units)
  return (
    <ul className="job-lines">
      <li>{unitsInWords(regulator)}</li>
      {standing && standing.id !== regulator.id && (
        <li>Stands there now: {unitsInWords(standing)}</li>
      )}
      <StandingLine kind={kind} bank={bank} />
      <UnitLines bank={bank} />
      <li>
        {lineVoltsInWords(neutralV)} from phase to neutral; {loopOhm} Ω taken for the loop that a
        bypass closes.
      </li>
      <li>
        {high
          ? `${high.value} ${high.unit} above sea level.`
          : 'Height above sea level is not known; the approach distance is that below 3,000 ft.'}
      </li>
    </ul>
  )
}

/** Said where the bank is out of service before the work or after it. */
function StandingLine({ kind, bank }: Props) {
  const { before, after } = bankStanding(kind, bank)
  if (![before, after].some((each) => each && isBypassed(each))) return null
  return (
    <>
      <li>Before the work: {standingInWords(before)}.</li>
      <li>After the work: {standingInWords(after)}.</li>
    </>
  )
}

/** Serial numbers of what hangs there, and how the neutral side is made up. */
function UnitLines({ bank: { regulator, standing } }: { readonly bank: BankWork }) {
  const serials = serialsInWords(standing ?? regulator)
  const [now, then] = [standing && neutralSideInWords(standing), neutralSideInWords(regulator)]
  return (
    <>
      {serials && <li>Serial numbers of the units that hang there: {serials}.</li>}
      {then && <li>Neutral side: {then}.</li>}
      {now && now !== then && <li>Neutral side of the units that hang there: {now}.</li>}
    </>
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
