import { PHASES } from '#domain/units/phases.ts'
import { convergedCase, nodesByPole, whyUnsolved } from '../state/case-solutions.ts'
import { useFeeder } from '../state/feeder.tsx'
import { useSelection } from '../state/selection.ts'
import { useShown, useShownCaseId } from '../state/solutions.ts'
import { showWorking } from '../state/working.ts'
import { Figure } from '../ui/figure.tsx'
import { voltageWorking } from './voltage-working.ts'

/** Volts of the pole in every case and phase; outside limits is said in words too. */
export function PoleVoltages({ pole }: { readonly pole: string }) {
  const { feeder } = useFeeder()
  const caseId = useShownCaseId()
  return (
    <table className="planner-table">
      <caption>Volts on the 120 V base</caption>
      <thead>
        <tr>
          <th scope="col">Load case</th>
          {PHASES.map((phase) => (
            <th key={phase} scope="col" className="planner-number">
              {phase}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {feeder.header.cases.map(({ id, name }) => (
          <tr key={id} aria-current={id === caseId ? 'true' : undefined}>
            <th scope="row">{name}</th>
            <CaseCells caseId={id} pole={pole} />
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function CaseCells({ caseId, pole }: { readonly caseId: string; readonly pole: string }) {
  const { feeder } = useFeeder()
  const { taps } = useSelection()
  const { data, isPending } = useShown()
  const solution = convergedCase(data, caseId)
  if (!solution) {
    return <td colSpan={3}>{isPending ? 'Computing…' : whyUnsolved(data, caseId)}</td>
  }
  const node = nodesByPole(solution).get(pole)
  return PHASES.map((phase) => {
    const found = node?.phases[phase]
    if (!node || !found) {
      return (
        <td key={phase} className="planner-number soft">
          <span aria-hidden="true">–</span>
          <span className="visually-hidden">phase {phase} is not here</span>
        </td>
      )
    }
    const side = sideOf(found.volts120, feeder.header.limits)
    return (
      <td key={phase} className="planner-number" data-side={side}>
        <Figure
          value={found.volts120.toFixed(1)}
          unit={side === 'in' ? '' : side}
          label={`Phase ${phase}`}
          onWorking={() => showWorking(voltageWorking({ feeder, solution, node, phase, taps }))}
        />
      </td>
    )
  })
}

function sideOf(
  volts120: number,
  { lowVolts120, highVolts120 }: { lowVolts120: number; highVolts120: number },
): 'low' | 'in' | 'high' {
  if (volts120 < lowVolts120) return 'low'
  return volts120 > highVolts120 ? 'high' : 'in'
}
