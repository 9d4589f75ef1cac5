import type { CaseEffect } from '#domain/siting/site-result.ts'
import { convergedCase } from '../state/case-solutions.ts'
import { useFeeder } from '../state/feeder.tsx'
import { select, useSelection } from '../state/selection.ts'
import { useBefore, useShownCaseId } from '../state/solutions.ts'
import { showWorking } from '../state/working.ts'
import { Button } from '../ui/button.tsx'
import { Figure } from '../ui/figure.tsx'
import { effectOf } from './effect.ts'
import { lossWorking, outsideWorking } from './figure-workings.ts'
import { voltageWorking } from './voltage-working.ts'

/** All load cases side by side as the line stands. */
export function CaseTable() {
  const model = useFeeder()
  const { data } = useBefore()
  const shown = useShownCaseId()
  const { cases, limits } = model.feeder.header
  const one = model.customers > 0 ? 'Customers' : 'Loads'
  return (
    <table className="planner-table">
      <caption>As the line stands</caption>
      <thead>
        <tr>
          <th scope="col">Load case</th>
          <th scope="col" className="planner-number">
            {one} outside
          </th>
          <th scope="col" className="planner-number">
            Lowest, V
          </th>
          <th scope="col" className="planner-number">
            Loss, kW
          </th>
        </tr>
      </thead>
      <tbody>
        {cases.map(({ id, name }) => {
          const solution = convergedCase(data, id)
          const effect = solution && effectOf(model, solution, limits)
          return (
            <tr key={id} aria-current={id === shown ? 'true' : undefined}>
              <th scope="row">
                <Button
                  look="plain"
                  className="planner-inline"
                  onClick={() => select({ case: id })}
                >
                  {name}
                </Button>
              </th>
              {effect ? <EffectCells effect={effect} caseId={id} /> : <td colSpan={3}>–</td>}
            </tr>
          )
        })}
      </tbody>
    </table>
  )
}

interface LowestProps {
  readonly lowest: CaseEffect['lowest']
  readonly caseId: string
}

function LowestFigure({ lowest, caseId }: LowestProps) {
  const { feeder } = useFeeder()
  const { taps } = useSelection()
  const solution = convergedCase(useBefore().data, caseId)
  const node = solution?.nodes.find(({ id }) => id === lowest.node)
  const open = () => {
    if (!solution || !node) return
    showWorking(voltageWorking({ feeder, solution, node, phase: lowest.phase, taps }))
  }
  return <Figure value={lowest.volts120.toFixed(1)} unit="" label="Lowest volts" onWorking={open} />
}

function EffectCells({ effect, caseId }: { readonly effect: CaseEffect; readonly caseId: string }) {
  const model = useFeeder()
  const { customersOutside, lowest, lossKw } = effect
  return (
    <>
      <td className="planner-number">
        <Figure
          value={String(customersOutside)}
          unit=""
          label="Outside limits"
          onWorking={() => showWorking(outsideWorking(model, effect))}
        />
      </td>
      <td className="planner-number">
        <LowestFigure lowest={lowest} caseId={caseId} />
      </td>
      <td className="planner-number">
        <Figure
          value={lossKw.toFixed(1)}
          unit=""
          label="Loss in kilowatts"
          onWorking={() => showWorking(lossWorking(model, effect, caseId))}
        />
      </td>
    </>
  )
}
