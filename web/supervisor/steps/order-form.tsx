import { useState } from 'react'
import type { SequenceRecord } from '#contract/jobs.ts'
import { SHIPPED_SEQUENCES } from '#domain/jobs/sequences/shipped-sequences.ts'
import { Meanwhile } from '../../record/meanwhile.tsx'
import { Button } from '../../ui/button.tsx'
import { ErrorNote } from '../../ui/state-note.tsx'
import {
  bodyOfSequence,
  isSameOrder,
  type OrderBody,
  type OrderDraft,
  orderDrafts,
} from './order-draft.ts'
import { type OrderFaults, orderFaults } from './order-faults.ts'
import { fieldsOfOrder, orderOfFields, orderRecordFields } from './order-fields.ts'
import { OrderHead } from './order-head.tsx'
import { StepsEditor } from './steps-editor.tsx'
import { useOrderSave } from './use-order-save.ts'

interface Props {
  readonly record: SequenceRecord
  readonly onDone: () => void
}

/** Changes an order of steps; it cannot be set while anything in it is incomplete or unsafe. */
export function OrderForm({ record, onDone }: Props) {
  const { id } = record.sequence
  const [opened] = useState(() => draftOfRecord(record))
  const draft = orderDrafts.use(id) ?? opened
  const keep = (body: OrderBody) => orderDrafts.keep(id, { ...draft, body })
  const letGo = () => {
    orderDrafts.keep(id, null)
    onDone()
  }
  const { save, isSaving, error, newer } = useOrderSave(letGo)
  const standing = newer && newer.version > record.version ? newer : record
  const faults = orderFaults(draft.body)
  const theirs = bodyOfSequence(standing.sequence)
  return (
    <form
      className="stack"
      aria-label={`Steps of ${record.sequence.name}`}
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        if (faults.sequence) save(faults.sequence, draft.version)
      }}
    >
      <Meanwhile
        thing={{ subject: 'step-sequence', subjectId: id, feederId: null }}
        what="this order of steps"
        fields={orderRecordFields([draft.base, theirs, draft.body])}
        typedOn={draft.version}
        base={fieldsOfOrder(draft.base)}
        mine={fieldsOfOrder(draft.body)}
        standing={{
          version: standing.version,
          fields: fieldsOfOrder(theirs),
          isDeleted: false,
        }}
        isRefused={newer !== null && newer.version > draft.version}
        isSaving={isSaving}
        onSave={(chosen, version) => {
          const body = orderOfFields(id, chosen)
          orderDrafts.keep(id, { body, version, base: theirs })
          const { sequence } = orderFaults(body)
          if (sequence) save(sequence, version)
        }}
        onDropMine={letGo}
      />
      <OrderHead body={draft.body} onType={(part) => keep({ ...draft.body, ...part })} />
      <GeneralFaults faults={faults} />
      <StepsEditor
        steps={draft.body.steps}
        faults={faults.bySteps}
        onChange={(steps) => keep({ ...draft.body, steps })}
      />
      <ShippedLine body={draft.body} onPutBack={keep} />
      {error && <ErrorNote title="Not set; what you typed is still here." error={error} />}
      <FaultLine faults={faults} />
      <div className="row">
        <Button type="submit" look="main" disabled={isSaving || faults.sequence === null}>
          {isSaving ? 'Setting…' : 'Set this order'}
        </Button>
        <Button onClick={letGo}>Give up the changes</Button>
      </div>
      <p className="small soft">Jobs that are drafted from then on take it; others keep theirs.</p>
    </form>
  )
}

function draftOfRecord({ sequence, version }: SequenceRecord): OrderDraft {
  const body = bodyOfSequence(sequence)
  return { body, version, base: body }
}

function GeneralFaults({ faults: { general } }: { readonly faults: OrderFaults }) {
  if (general.length === 0) return null
  return (
    <ul className="state-note state-note-error" aria-label="Faults of the whole order">
      {general.map((fault) => (
        <li key={fault}>{fault}</li>
      ))}
    </ul>
  )
}

/** Beside the button, why it does nothing. */
function FaultLine({ faults: { sequence, bySteps } }: { readonly faults: OrderFaults }) {
  if (sequence) return null
  const steps = bySteps.size === 1 ? 'one step' : `${bySteps.size} steps`
  return (
    <p role="status" className="job-late">
      It cannot be set yet: {bySteps.size > 0 ? `see ${steps} above.` : 'see above.'}
    </p>
  )
}

interface ShippedProps {
  readonly body: OrderBody
  readonly onPutBack: (body: OrderBody) => void
}

/** The way back to what came with the program. */
function ShippedLine({ body, onPutBack }: ShippedProps) {
  const shipped = SHIPPED_SEQUENCES.find(({ id }) => id === body.id)
  if (!shipped) return null
  const asShipped = bodyOfSequence(shipped)
  if (isSameOrder(body, asShipped)) {
    return <p className="soft">These are the steps as they come with the program.</p>
  }
  return (
    <div>
      <Button onClick={() => onPutBack(asShipped)}>
        Put back the steps as they come with the program
      </Button>
    </div>
  )
}
