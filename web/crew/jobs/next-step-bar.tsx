import { useState } from 'react'
import type { JobKind } from '#domain/jobs/job-kind.ts'
import { useMay } from '../../api/account.ts'
import { stepsInWords, WAITS_FOR } from '../../jobs/job-words.ts'
import { Button } from '../../ui/button.tsx'
import { openCrewView } from '../open-crew-view.ts'
import { enterMove } from '../work/field-job.ts'
import type { FieldJob } from '../work/fold-field-job.ts'
import type { NextStep } from './next-step.ts'

interface Props {
  readonly field: FieldJob
  readonly next: NextStep
}

/** The next step, large and at the lower edge, where the thumb is. */
export function NextStepBar({ field, next }: Props) {
  const { job } = field
  const mayWork = useMay('work a job in the field')
  const [isEntering, setIsEntering] = useState(false)
  const steps = (poleId: string) => openCrewView({ part: 'steps', jobId: job.id, poleId }, poleId)
  const move = async (to: 'in the field' | 'work done', what: string, then: () => void) => {
    setIsEntering(true)
    await enterMove(job.id, { to, version: field.moveVersion }, `${what}: ${job.title}`)
    setIsEntering(false)
    then()
  }
  const act = () => {
    switch (next.kind) {
      case 'begin':
        return void move('in the field', 'Work started', () => steps(next.poleId))
      case 'steps':
      case 'mend':
        return steps(next.poleId)
      case 'as-left':
        return openCrewView({ part: 'as-left', jobId: job.id })
      case 'end':
        return void move('work done', 'Work said to be done', () => {})
      case 'resume':
      case 'nothing':
        return
    }
  }
  const words = wordsOf(next, job.plan.kind)
  return (
    <div className="crew-next">
      {!mayWork && words && <p>Whoever is signed in may look, but not work on this job.</p>}
      {words ? (
        <Button
          look="main"
          className="crew-next-button"
          disabled={!mayWork || isEntering}
          onClick={act}
        >
          {words}
        </Button>
      ) : (
        <p>{WAITS_FOR[job.state]}</p>
      )}
    </div>
  )
}

const AS_LEFT_WORDS: Partial<Readonly<Record<JobKind, string>>> = {
  'remove a bank': 'Write what was found and taken down',
  'take a bank out of service': 'Write the taps and counters as left',
  'return a bank to service': 'Write the settings and taps as left',
}

/** Null where the crew has nothing to do, or what it does needs a reason first. */
function wordsOf(next: NextStep, kind: JobKind): string | null {
  switch (next.kind) {
    case 'begin':
      return `We are at it: start at ${next.poleId}`
    case 'steps':
      return next.count.done === 0
        ? `Start the steps at ${next.poleId}`
        : `Go on at ${next.poleId}: ${stepsInWords(next.count)}`
    case 'mend':
      return `See what is missing at ${next.poleId}`
    case 'as-left':
      return AS_LEFT_WORDS[kind] ?? 'Write what stands there now'
    case 'end':
      return 'The work is done'
    case 'resume':
    case 'nothing':
      return null
  }
}
