import type { NodeVoltage } from '#domain/electrical/solution.ts'
import { PHASES } from '#domain/units/phases.ts'
import { convergedCase, nodesByPole, whyUnsolved } from '../state/case-solutions.ts'
import { useFeeder } from '../state/feeder.tsx'
import { useBefore, useShownCaseId } from '../state/solutions.ts'
import { ErrorNote, LoadingNote } from '../ui/state-note.tsx'

/** Computed voltage at a pole in the load case that is shown, with no bank on trial. */
export function PoleVoltage({ poleId }: { readonly poleId: string }) {
  const caseId = useShownCaseId()
  const { cases } = useFeeder().feeder.header
  const { data, isPending, error, refetch } = useBefore()
  const solution = convergedCase(data, caseId)
  const node = solution && nodesByPole(solution).get(poleId)
  const why = whyUnsolved(data, caseId)
  return (
    <section className="stack" aria-label="Voltage">
      <h3>Voltage, case “{cases.find(({ id }) => id === caseId)?.name ?? caseId}”</h3>
      {isPending && <LoadingNote what="Solving the voltages…" />}
      {error && <ErrorNote title="Not solved" error={error} onRetry={() => void refetch()} />}
      {why && <p>No voltage in this case: {why}</p>}
      {solution && !node && (
        <p>Nothing feeds this pole on record, so it has no computed voltage.</p>
      )}
      {node && <PhaseLines node={node} />}
      <p>Computed from the record, not measured; it says nothing about whether the line is dead.</p>
    </section>
  )
}

function PhaseLines({ node }: { readonly node: NodeVoltage }) {
  return (
    <ul className="crew-volts">
      {PHASES.map((phase) => {
        const voltage = node.phases[phase]
        if (!voltage) return null
        const kv = (voltage.pu * node.nominalV) / 1000
        return (
          <li key={phase}>
            <strong>{phase}</strong> {voltage.volts120.toFixed(1)} V on the 120 V base,{' '}
            {kv.toFixed(2)} kV to ground
          </li>
        )
      })}
    </ul>
  )
}
