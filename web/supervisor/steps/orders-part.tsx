import type { SequenceRecord } from '#contract/jobs.ts'
import { useMay } from '../../api/account.ts'
import { useSequences } from '../../api/sequences.ts'
import { KIND_WORDS } from '../../jobs/job-words.ts'
import { Moment } from '../../record/moment.tsx'
import { Who } from '../../record/who.tsx'
import { counted, listed } from '../../state/format.ts'
import { select } from '../../state/selection.ts'
import { List, ListRow } from '../../ui/list.tsx'
import { EmptyNote, ErrorNote, LoadingNote } from '../../ui/state-note.tsx'
import { viewOfOrders } from '../supervisor-view.ts'
import { orderDrafts } from './order-draft.ts'

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
      {data?.length === 0 && <EmptyNote what="There is no order of steps." />}
      {data && data.length > 0 && (
        <List label={counted(data.length, 'order of steps', 'orders of steps')}>
          {data.map((record) => (
            <OrderRow key={record.sequence.id} record={record} />
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

function OrderRow({ record }: { readonly record: SequenceRecord }) {
  const { id, name, forKinds, steps } = record.sequence
  const isBegun = orderDrafts.use(id) !== null
  const holds = steps.filter(({ isHoldPoint }) => isHoldPoint).length
  return (
    <ListRow onChoose={() => select({ view: viewOfOrders(id) })}>
      <strong>{name}</strong>
      <span>
        {counted(steps.length, 'step')}, {counted(holds, 'hold point')}; for:{' '}
        {listed(forKinds.map((kind) => KIND_WORDS[kind].toLowerCase()))}
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
