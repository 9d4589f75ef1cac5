import type { SiteRequest } from '#domain/siting/site-request.ts'
import type { CaseEffect } from '#domain/siting/site-result.ts'
import { convergedCase, whyUnsolved } from '../state/case-solutions.ts'
import { useFeeder } from '../state/feeder.tsx'
import type { FeederModel } from '../state/feeder-model.ts'
import { select } from '../state/selection.ts'
import { useBefore, useShownCaseId, useSolutions } from '../state/solutions.ts'
import { useTrial } from '../state/trial.ts'
import { showWorking, type Working } from '../state/working.ts'
import { Button } from '../ui/button.tsx'
import { Figure } from '../ui/figure.tsx'
import { effectOf } from './effect.ts'
import { lossWorking, outsideWorking } from './figure-workings.ts'
import { limitsOf } from './limits-of.ts'

/** Every case with and without the banks, computed here and now. */
export function BeforeAfter({ request }: { readonly request: SiteRequest }) {
  const { feeder } = useFeeder()
  return (
    <table className="planner-table">
      <caption>
        What changes <span className="soft">(volts on the 120 V base)</span>
      </caption>
      <thead>
        <tr>
          <td />
          <th scope="col" className="planner-number">
            Before
          </th>
          <th scope="col" className="planner-number">
            After
          </th>
        </tr>
      </thead>
      {feeder.header.cases.map(({ id, name }) => (
        <CaseRows key={id} caseId={id} name={name} request={request} />
      ))}
    </table>
  )
}

interface CaseProps {
  readonly caseId: string
  readonly name: string
  readonly request: SiteRequest
}

function CaseRows({ caseId, name, request }: CaseProps) {
  const model = useFeeder()
  const { banks } = useTrial()
  const limits = limitsOf(model.feeder.header, request)
  const now = useBefore().data
  const then = useSolutions(banks).data
  const isShown = useShownCaseId() === caseId
  const [before, after] = [now, then].map((solutions) => {
    const solution = convergedCase(solutions, caseId)
    return solution && effectOf(model, solution, limits)
  })
  return (
    <tbody aria-current={isShown ? 'true' : undefined}>
      <tr>
        <th scope="rowgroup" colSpan={3} className="planner-case">
          <Button look="plain" className="planner-inline" onClick={() => select({ case: caseId })}>
            {name}
          </Button>
        </th>
      </tr>
      {before && after ? (
        <EffectRows before={before} after={after} caseId={caseId} />
      ) : (
        <tr>
          <td colSpan={3}>{whyUnsolved(then, caseId) ?? 'Computing…'}</td>
        </tr>
      )}
    </tbody>
  )
}

interface Row {
  readonly label: string
  readonly value: (effect: CaseEffect) => string
  readonly unit: string
  readonly working?: (model: FeederModel, effect: CaseEffect, caseId: string) => Working
}

const ROWS: readonly Row[] = [
  {
    label: 'Customers outside',
    value: ({ customersOutside }) => String(customersOutside),
    unit: '',
    working: outsideWorking,
  },
  { label: 'Lowest', value: ({ lowest }) => extreme(lowest), unit: '' },
  { label: 'Highest', value: ({ highest }) => extreme(highest), unit: '' },
  { label: 'Loss', value: ({ lossKw }) => lossKw.toFixed(1), unit: 'kW', working: lossWorking },
]

function extreme({ volts120, node, phase }: CaseEffect['lowest']): string {
  return `${volts120.toFixed(1)} V, ${node} ${phase}`
}

interface EffectProps {
  readonly before: CaseEffect
  readonly after: CaseEffect
  readonly caseId: string
}

function EffectRows({ before, after, caseId }: EffectProps) {
  const model = useFeeder()
  return ROWS.map(({ label, value, unit, working }) => (
    <tr key={label}>
      <th scope="row">{label}</th>
      {[before, after].map((effect, index) => (
        <td key={index === 0 ? 'before' : 'after'} className="planner-number">
          <Figure
            value={value(effect)}
            unit={unit}
            label={`${label} ${index === 0 ? 'before' : 'after'}`}
            onWorking={working && (() => showWorking(working(model, effect, caseId)))}
          />
        </td>
      ))}
    </tr>
  ))
}
