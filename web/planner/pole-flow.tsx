import { convergedCase, nodesByPole } from '../state/case-solutions.ts'
import { useFeeder } from '../state/feeder.tsx'
import { useShown, useShownCaseId } from '../state/solutions.ts'
import { currentInWords, voltsInUnits } from './pole-in-units.ts'

/** The shown case in other units, and the current that goes onward from the pole. */
export function PoleFlow({ pole }: { readonly pole: string }) {
  const { trace, feeder } = useFeeder()
  const caseId = useShownCaseId()
  const solution = convergedCase(useShown().data, caseId)
  const node = solution && nodesByPole(solution).get(pole)
  if (!node) return null
  const onward = trace.spans.filter(({ nearPole }) => nearPole === pole)
  const flows = new Map(solution.spans.map((flow) => [flow.id, flow]))
  return (
    <div>
      <h3>{feeder.header.cases.find(({ id }) => id === caseId)?.name}</h3>
      <p>To neutral: {voltsInUnits(node)}.</p>
      {onward.map(({ span, farPole }) => {
        const flow = flows.get(span.id)
        return (
          flow && (
            <p key={span.id}>
              Onward to {farPole}: {currentInWords(flow)}.
            </p>
          )
        )
      })}
    </div>
  )
}
