import { useState } from 'react'
import type { SequenceRecord } from '#contract/jobs.ts'
import { SHIPPED_SEQUENCES } from '#domain/jobs/sequences/shipped-sequences.ts'
import { Meanwhile } from '../../record/meanwhile.tsx'
import { Button } from '../../ui/button.tsx'
import { ErrorNote } from '../../ui/state-note.tsx'
import { NEW_ORDER, withOwnId } from './new-order.ts'
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
import { TakenLine } from './taken-line.tsx'
import { useOrderSave } from './use-order-save.ts'

interface Props {
  readonly record: Pick<SequenceRecord, 'sequence' | 'version'>
  /** All that are in use. */
  readonly records: readonly SequenceRecord[]
  /** Not set before: its id goes with its name. */
  readonly isNew?: boolean
  /** @param savedId of the order that was set; left out where the changes were given up */
  readonly onDone: (savedId?: string) => void
}

/** Changes an order of steps; it cannot be set while anything in it is incomplete or unsafe. */
export function OrderForm({ record, records, isNew = false, onDone }: Props) {
  const id = isNew ? NEW_ORDER : record.sequence.id
  const [opened] = useState(() => draftOfRecord(record))
  const draft = orderDrafts.use(id) ?? opened
  const body = isNew ? withOwnId(draft.body, records) : draft.body
  const keep = (next: OrderBody) => orderDrafts.keep(id, { ...draft, body: next })
  const letGo = (savedId?: string) => {
    orderDrafts.keep(id, null)
    onDone(savedId)
  }
  const { save, isSaving, error, newer } = useOrderSave(({ sequence }) => letGo(sequence.id))
  // The steps that came with the program stand again, in version 0.
  const isWithdrawn = record.version < draft.version
  const version = isWithdrawn ? record.version : draft.version
  const isNewer = newer !== null && !isWithdrawn && newer.version > draft.version
  const standing = isNewer && newer.version > record.version ? newer : record
  const faults = orderFaults(body, records)
  const theirs = bodyOfSequence(standing.sequence)
  return (
    <form
      className="stack"
      aria-label={`Steps of ${record.sequence.name}`}
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        if (faults.sequence) save(faults.sequence, version)
      }}
    >
      {isWithdrawn && (
        <p className="state-note" role="status">
          What the utility had set was withdrawn meanwhile. Nothing of yours is lost: setting it
          puts it in place again.
        </p>
      )}
      {!isNew && (
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
          isRefused={isNewer}
          isSaving={isSaving}
          onSave={(chosen, seen) => {
            const merged = orderOfFields(id, chosen)
            orderDrafts.keep(id, { body: merged, version: seen, base: theirs })
            const { sequence } = orderFaults(merged, records)
            if (sequence) save(sequence, seen)
          }}
          onDropMine={() => letGo()}
        />
      )}
      <OrderHead body={body} onType={(part) => keep({ ...body, ...part })} />
      <GeneralFaults faults={faults} />
      <StepsEditor
        steps={body.steps}
        faults={faults.bySteps}
        onChange={(steps) => keep({ ...body, steps })}
      />
      <ShippedLine body={body} onPutBack={keep} />
      {faults.sequence && <TakenLine sequence={faults.sequence} records={records} isToCome />}
      {error && <ErrorNote title="Not set; what you typed is still here." error={error} />}
      <FaultLine faults={faults} />
      <div className="row">
        <Button type="submit" look="main" disabled={isSaving || faults.sequence === null}>
          {isSaving ? 'Setting…' : 'Set this order'}
        </Button>
        <Button onClick={() => letGo()}>
          {isNew ? 'Give up this order' : 'Give up the changes'}
        </Button>
      </div>
      <p className="small soft">Jobs that are drafted already keep the steps that they have.</p>
    </form>
  )
}

function draftOfRecord({ sequence, version }: Props['record']): OrderDraft {
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
