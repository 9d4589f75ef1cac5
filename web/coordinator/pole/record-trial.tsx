import { useState } from 'react'
import type { MeasureFacts } from '#domain/avian/measures/measure.ts'
import { useMay } from '../../api/account.ts'
import { useProtectionChanges } from '../../api/protections.ts'
import type { PoleBirds } from '../../birds/use-pole-birds.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { counted } from '../../state/format.ts'
import { localToday } from '../../state/today.ts'
import { Button } from '../../ui/button.tsx'
import { ErrorNote } from '../../ui/state-note.tsx'
import { itemsOfMeasures } from './items-of-measures.ts'
import type { MeasureTrial } from './trial-measures.ts'

interface Props {
  readonly birds: PoleBirds
  readonly trial: MeasureTrial
  readonly catalogue: readonly MeasureFacts[]
}

/** What the trial would leave open, and the way from a trial into the record. */
export function RecordTrial({ birds, trial, catalogue }: Props) {
  const mayRecord = useMay('record or change a guard, cover or perch')
  const saving = useRecordTrial(birds, trial, catalogue)
  if (trial.uses.length === 0) return null
  return (
    <div className="state-note" role="status" aria-label="Trial">
      <span>
        Trial, nothing is recorded yet: {counted(trial.pairs.length, 'pair')} left of{' '}
        {birds.assessment.pairs.length}, with {counted(trial.uses.length, 'measure')}.
      </span>
      {saving.error && <ErrorNote title="Not all was recorded" error={saving.error} />}
      <div className="row">
        {mayRecord && (
          <>
            <Button look="main" disabled={saving.isSaving} onClick={() => saving.record('planned')}>
              Record as planned
            </Button>
            <Button disabled={saving.isSaving} onClick={() => saving.record('on')}>
              Record as on
            </Button>
          </>
        )}
        <Button onClick={() => trial.set([])}>Give up the trial</Button>
      </div>
    </div>
  )
}

/** Adds an item for each measure; those that were refused stay in the trial. */
function useRecordTrial(
  { site, assessment }: PoleBirds,
  trial: MeasureTrial,
  catalogue: readonly MeasureFacts[],
) {
  const { add } = useProtectionChanges(useFeeder().feeder.header.id)
  const [error, setError] = useState<Error | null>(null)
  const [isSaving, setIsSaving] = useState(false)
  const record = async (state: 'planned' | 'on') => {
    const parts = assessment.poleTop?.parts ?? []
    const choice = { pole: site.pole.id, parts, catalogue, state, on: localToday() }
    const left = [...trial.uses]
    setIsSaving(true)
    setError(null)
    try {
      for (const body of itemsOfMeasures(trial.uses, choice)) {
        await add.mutateAsync(body)
        left.shift()
      }
    } catch (refused) {
      setError(refused instanceof Error ? refused : new Error(String(refused)))
    }
    trial.set(left)
    setIsSaving(false)
  }
  return { record: (state: 'planned' | 'on') => void record(state), error, isSaving }
}
