import { type FormEvent, useState } from 'react'
import type { SequenceRecord } from '#contract/jobs.ts'
import { useSequences } from '../../api/sequences.ts'
import { select } from '../../state/selection.ts'
import { ArrivingTitle } from '../../ui/arriving-title.tsx'
import { Button } from '../../ui/button.tsx'
import { Field } from '../../ui/field.tsx'
import { ErrorNote, LoadingNote } from '../../ui/state-note.tsx'
import { viewOfOrders } from '../supervisor-view.ts'
import { beginOrder, NEW_ORDER, useNewOrder } from './new-order.ts'
import { sequenceOfDraft } from './order-draft.ts'
import { OrderForm } from './order-form.tsx'

/** Adds an order of steps, begun as a copy of one that is there. */
export function AddOrder() {
  const { data, error, refetch } = useSequences()
  const draft = useNewOrder()
  return (
    <section className="stack" aria-label="New order of steps">
      <div>
        <Button onClick={() => select({ view: viewOfOrders() })}>Back to all orders</Button>
      </div>
      <ArrivingTitle of={NEW_ORDER}>New order of steps</ArrivingTitle>
      {error && (
        <ErrorNote
          title="The orders to begin from did not arrive."
          error={error}
          onRetry={() => void refetch()}
        />
      )}
      {!data && !error && <LoadingNote what="Fetching the orders of steps…" />}
      {data && draft && (
        <OrderForm
          record={{ sequence: sequenceOfDraft(draft.base), version: draft.version }}
          records={data}
          isNew
          onDone={(savedId) => select({ view: viewOfOrders(savedId) })}
        />
      )}
      {data && !draft && <BeginForm records={data} />}
    </section>
  )
}

function BeginForm({ records }: { readonly records: readonly SequenceRecord[] }) {
  const [likeId, setLikeId] = useState(records[0]?.sequence.id ?? '')
  const [name, setName] = useState('')
  const [isTried, setIsTried] = useState(false)
  const like = records.find(({ sequence }) => sequence.id === likeId)
  const begin = (event: FormEvent) => {
    event.preventDefault()
    setIsTried(true)
    if (!like || name.trim() === '') return
    beginOrder(
      name.trim(),
      like.sequence,
      records.map(({ sequence }) => sequence.id),
    )
  }
  return (
    <form
      className="stack job-form"
      aria-label="Begin an order of steps"
      noValidate
      onSubmit={begin}
    >
      <Field
        label="Name"
        hint="As the crew knows the procedure."
        fault={isTried && name.trim() === '' ? 'Give it a name that the crew knows it by.' : null}
      >
        {(control) => (
          <input
            {...control}
            className="input"
            value={name}
            maxLength={120}
            onChange={({ target }) => setName(target.value)}
          />
        )}
      </Field>
      <Field label="Begin with the steps of" hint="They are copied; that order stays as it is.">
        {(control) => (
          <select
            {...control}
            className="input"
            value={likeId}
            onChange={({ target }) => setLikeId(target.value)}
          >
            {records.map(({ sequence }) => (
              <option key={sequence.id} value={sequence.id}>
                {sequence.name}
              </option>
            ))}
          </select>
        )}
      </Field>
      <div>
        <Button type="submit" look="main">
          Begin
        </Button>
      </div>
      <p className="small soft">
        Nothing is set yet: kinds of job, standing of the bank and steps come next.
      </p>
    </form>
  )
}
