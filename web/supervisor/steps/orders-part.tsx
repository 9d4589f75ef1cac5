import type { SequenceRecord } from '#contract/jobs.ts'
import { useMay } from '../../api/account.ts'
import { useSequences } from '../../api/sequences.ts'
import { Moment } from '../../record/moment.tsx'
import { Who } from '../../record/who.tsx'
import { counted, listed } from '../../state/format.ts'
import { select } from '../../state/selection.ts'
import { Button } from '../../ui/button.tsx'
import { List, ListRow } from '../../ui/list.tsx'
import { EmptyNote, ErrorNote, LoadingNote } from '../../ui/state-note.tsx'
import { ADD_ORDER, viewOfOrders } from '../supervisor-view.ts'
import { useNewOrder } from './new-order.ts'
import { orderDrafts } from './order-draft.ts'
import { workTaking } from './work-taking.ts'

/** The orders of steps that jobs are drafted with. */
export function OrdersPart() {
  const { data, error, isPending, refetch } = useSequences()
  const maySet = useMay('set the order of steps')
  return (
    <section className="stack" aria-label="Orders of steps">
      <h2>Orders of steps</h2>
      <p>
        A job takes the order of its kind when it is drafted, and keeps it from then on.{' '}
        {maySet
          ? 'Set them as your own procedures say.'
          : 'Setting them is the supervisor’s; they are shown here to be read.'}
      </p>
      {isPending && <LoadingNote what="Fetching the orders of steps…" />}
      {error && (
        <ErrorNote
          title="The orders of steps did not arrive."
          error={error}
          onRetry={() => void refetch()}
        />
      )}
      {maySet && <AddButton />}
      {data?.length === 0 && <EmptyNote what="There is no order of steps." />}
      {data && data.length > 0 && (
        <List label={counted(data.length, 'order of steps', 'orders of steps')}>
          {data.map((record) => (
            <OrderRow key={record.sequence.id} record={record} records={data} />
          ))}
        </List>
      )}
      <p className="small soft">
        They are a record and an aid, not an authority. The utility’s own procedure, its safety
        rules and its qualified workers govern.
      </p>
    </section>
  )
}

/** Opens the form; an order that was begun and not set yet goes on. */
function AddButton() {
  const begun = useNewOrder()
  return (
    <div>
      <Button onClick={() => select({ view: ADD_ORDER })}>
        {begun ? `Go on with “${begun.body.name}”, not set yet` : 'Add an order of steps'}
      </Button>
    </div>
  )
}

interface RowProps {
  readonly record: SequenceRecord
  /** All that are in use. */
  readonly records: readonly SequenceRecord[]
}

function OrderRow({ record, records }: RowProps) {
  const { id, name, steps } = record.sequence
  const taken = workTaking(id, records)
  const isBegun = orderDrafts.use(id) !== null
  const holds = steps.filter(({ isHoldPoint }) => isHoldPoint).length
  return (
    <ListRow onChoose={() => select({ view: viewOfOrders(id) })}>
      <strong>{name}</strong>
      <span>
        {counted(steps.length, 'step')}, {counted(holds, 'hold point')};{' '}
        {taken.length > 0 ? `taken for: ${listed(taken)}` : 'no job takes it'}
      </span>
      <span className="soft">
        <SetBy record={record} />
        {isBegun && ' You have begun to change it.'}
      </span>
    </ListRow>
  )
}

/** Who set an order, or that it came with the program. */
export function SetBy({ record }: { readonly record: SequenceRecord }) {
  const { version, changedBy, changedAt } = record
  if (version === 0 || !changedBy || !changedAt) return <>As it comes with the program.</>
  return (
    <>
      Version {version}, set by <Who {...changedBy} />, <Moment at={changedAt} />.
    </>
  )
}
