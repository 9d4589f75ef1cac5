import { PHASES } from '#domain/units/phases.ts'
import { convergedCase, nodesByPole } from '../../state/case-solutions.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { distance, inWords } from '../../state/format.ts'
import { useHoveredPole } from '../../state/hover.ts'
import { useSelection } from '../../state/selection.ts'
import { useShown, useShownCaseId } from '../../state/solutions.ts'

/** The pole under the pointer, else the selected one, with its voltages, in one line. */
export function ProfileReadout() {
  const { distanceM, feeder } = useFeeder()
  const { pole: selected, units } = useSelection()
  const pole = useHoveredPole() ?? selected
  const caseId = useShownCaseId()
  const solution = convergedCase(useShown().data, caseId)
  const node = pole === null ? undefined : solution && nodesByPole(solution).get(pole)
  const caseName = feeder.header.cases.find(({ id }) => id === caseId)?.name
  if (!node || pole === null) {
    return <span className="soft">Volts on the 120 V base along the line. {caseName}.</span>
  }
  const phases = PHASES.flatMap((phase) => {
    const found = node.phases[phase]
    return found ? [`${phase} ${found.volts120.toFixed(1)} V`] : []
  })
  return (
    <span>
      <strong>{pole}</strong>, {inWords(distance(distanceM.get(pole) ?? 0, units))} from the source:{' '}
      {phases.join(', ')}
    </span>
  )
}
