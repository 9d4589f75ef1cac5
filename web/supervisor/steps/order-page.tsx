import { useState } from 'react'
import type { SequenceRecord } from '#contract/jobs.ts'
import { useMay } from '../../api/account.ts'
import { useSequences } from '../../api/sequences.ts'
import { KIND_WORDS } from '../../jobs/job-words.ts'
import { StepLines } from '../../jobs/plan/step-lines.tsx'
import { HistoryButton } from '../../record/history-button.tsx'
import { listed } from '../../state/format.ts'
import { select } from '../../state/selection.ts'
import { ArrivingTitle } from '../../ui/arriving-title.tsx'
import { Button } from '../../ui/button.tsx'
import { EmptyNote, ErrorNote, LoadingNote } from '../../ui/state-note.tsx'
import { viewOfOrders } from '../supervisor-view.ts'
import { orderDrafts } from './order-draft.ts'
import { OrderForm } from './order-form.tsx'
import { SetBy } from './orders-part.tsx'

/** One order of steps: to be read, and to be changed by whoever may. */
export function OrderPage({ sequenceId }: { readonly sequenceId: string }) {
  const { data, error, isPending, refetch } = useSequences()
  const record = data?.find(({ sequence }) => sequence.id === sequenceId)
  return (
    <section className="stack" aria-label="Order of steps">
      <div>
        <Button onClick={() => select({ view: viewOfOrders() })}>Back to all orders</Button>
      </div>
      {isPending && <LoadingNote what="Fetching the order of steps…" />}
      {error && (
        <ErrorNote
          title="The order of steps did not arrive."
          error={error}
          onRetry={() => void refetch()}
        />
      )}
      {data && !record && <EmptyNote what={`There is no order of steps “${sequenceId}”.`} />}
      {record && <Opened record={record} />}
    </section>
  )
}

function Opened({ record }: { readonly record: SequenceRecord }) {
  const { sequence, version } = record
  const maySet = useMay('set the order of steps')
  const isBegun = orderDrafts.use(sequence.id) !== null
  const [isEditing, setIsEditing] = useState(isBegun)
  return (
    <>
      <ArrivingTitle of={sequence.id}>{sequence.name}</ArrivingTitle>
      <p className="soft">
        <SetBy record={record} /> For:{' '}
        {listed(sequence.forKinds.map((kind) => KIND_WORDS[kind].toLowerCase()))}.
      </p>
      {isEditing && maySet ? (
        <OrderForm record={record} onDone={() => setIsEditing(false)} />
      ) : (
        <>
          {maySet && (
            <div>
              <Button look="main" onClick={() => setIsEditing(true)}>
                Change the steps
              </Button>
            </div>
          )}
          <StepLines steps={sequence.steps} />
          <p className="small soft">{sequence.source}</p>
        </>
      )}
      {version > 0 && (
        <HistoryButton
          thing={{ subject: 'step-sequence', subjectId: sequence.id, feederId: null }}
          name={`the order of steps ${sequence.name}`}
        />
      )}
    </>
  )
}
