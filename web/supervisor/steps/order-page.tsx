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
import { ADD_ORDER, viewOfOrders } from '../supervisor-view.ts'
import { NEW_ORDER } from './new-order.ts'
import { orderDrafts } from './order-draft.ts'
import { OrderForm } from './order-form.tsx'
import { SetBy } from './orders-part.tsx'
import { TakenLine } from './taken-line.tsx'
import { WithdrawOrder } from './withdraw-order.tsx'

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
      {data && !record && <OrderGone sequenceId={sequenceId} />}
      {data && record && <Opened record={record} records={data} />}
    </section>
  )
}

/** In place of an order that is not there; what was typed of it goes on as a new one. */
function OrderGone({ sequenceId }: { readonly sequenceId: string }) {
  const draft = orderDrafts.use(sequenceId)
  const goOn = () => {
    if (!draft) return
    orderDrafts.keep(NEW_ORDER, { ...draft, version: 0 })
    orderDrafts.keep(sequenceId, null)
    select({ view: ADD_ORDER })
  }
  return (
    <EmptyNote what="There is no such order of steps. It may have been withdrawn; jobs that took it keep its steps.">
      {draft && <Button onClick={goOn}>Go on with what you typed, as a new order</Button>}
    </EmptyNote>
  )
}

interface OpenedProps {
  readonly record: SequenceRecord
  readonly records: readonly SequenceRecord[]
}

function Opened({ record, records }: OpenedProps) {
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
      <TakenLine sequence={sequence} records={records} />
      {isEditing && maySet ? (
        <OrderForm record={record} records={records} onDone={() => setIsEditing(false)} />
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
      {version > 0 && maySet && !isEditing && (
        <WithdrawOrder
          record={record}
          records={records}
          onWithdrawn={() => select({ view: viewOfOrders() })}
        />
      )}
    </>
  )
}
