import type { JobPlan, PoleWork } from '#domain/jobs/job-plan.ts'
import type { Step } from '#domain/jobs/step-sequence.ts'
import { measureInWords } from '../../birds/measure-words.ts'
import { usePoleBirds } from '../../birds/use-pole-birds.ts'
import { capitalised } from '../../jobs/job-words.ts'
import { BankFacts } from '../../jobs/plan/bank-facts.tsx'
import { SettingsSheet } from '../../jobs/plan/settings-sheet.tsx'
import { counted } from '../../state/format.ts'
import { useSelection } from '../../state/selection.ts'
import { listsOfStep } from './lists-of-step.ts'

interface Props {
  readonly plan: JobPlan
  readonly poleId: string
  readonly step: Step
}

/** The lists of the job that a step speaks of, so that nobody leaves the step to look them up. */
export function StepLists({ plan, poleId, step }: Props) {
  const work = plan.poles.find(({ pole }) => pole === poleId)
  const lists = listsOfStep(step)
  const { bank, settings, kind } = plan
  return (
    <>
      {lists.includes('settings') && settings.length > 0 && (
        <details className="work-fold" open>
          <summary>Settings: {counted(settings.length, 'line')}</summary>
          <SettingsSheet settings={settings} />
        </details>
      )}
      {lists.includes('rating') && bank && (
        <details className="work-fold" open>
          <summary>The bank of this job</summary>
          <BankFacts kind={kind} bank={bank} />
        </details>
      )}
      {lists.includes('measures') && work && work.measures.length > 0 && (
        <details className="work-fold" open>
          <summary>Bird work here: {counted(work.measures.length, 'line')}</summary>
          <Measures work={work} />
        </details>
      )}
    </>
  )
}

function Measures({ work: { pole, measures } }: { readonly work: PoleWork }) {
  const { units } = useSelection()
  const parts = usePoleBirds(pole).found?.assessment.poleTop?.parts ?? []
  return (
    <ol className="step-measures">
      {measures.map((measure) => (
        <li key={`${measure.kind} ${measure.partIds.join(' ')}`}>
          {capitalised(measureInWords(measure, parts, units))}
        </li>
      ))}
    </ol>
  )
}
