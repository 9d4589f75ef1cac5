import { useState } from 'react'
import type { SequenceRecord } from '#contract/jobs.ts'
import { SHIPPED_SEQUENCES } from '#domain/jobs/sequences/shipped-sequences.ts'
import { useWithdrawSequence } from '../../api/sequences.ts'
import { listed } from '../../state/format.ts'
import { Button } from '../../ui/button.tsx'
import { ErrorNote } from '../../ui/state-note.tsx'
import { orderDrafts } from './order-draft.ts'
import { workTaking } from './work-taking.ts'

interface Props {
  readonly record: SequenceRecord
  /** All that are in use. */
  readonly records: readonly SequenceRecord[]
  readonly onWithdrawn: () => void
}

/** Takes away what the utility has set, once the person has read what that means. */
export function WithdrawOrder({ record, records, onWithdrawn }: Props) {
  const { sequence, version } = record
  const { id, name } = sequence
  const [isAsked, setIsAsked] = useState(false)
  const withdraw = useWithdrawSequence()
  const isShipped = SHIPPED_SEQUENCES.some((shipped) => shipped.id === id)
  if (!isAsked) {
    return (
      <div>
        <Button onClick={() => setIsAsked(true)}>
          {isShipped ? 'Go back to the steps that came with the program…' : 'Withdraw this order…'}
        </Button>
      </div>
    )
  }
  const go = () =>
    withdraw.mutate(
      { id, version },
      {
        onSuccess: () => {
          orderDrafts.keep(id, null)
          setIsAsked(false)
          onWithdrawn()
        },
      },
    )
  return (
    <section className="stack job-form" aria-label={`Withdraw ${name}`}>
      <p>
        {isShipped
          ? 'The steps are then as they came with the program; what the utility has set stays in the history.'
          : `It is gone from the list; its history stays. ${afterwards(id, records)}`}{' '}
        Jobs that are drafted already keep their steps.
      </p>
      {withdraw.error && <ErrorNote title="Not withdrawn." error={withdraw.error} />}
      <div className="row">
        <Button look="danger" disabled={withdraw.isPending} onClick={go}>
          {withdraw.isPending ? 'Withdrawing…' : 'Withdraw it'}
        </Button>
        <Button
          onClick={() => {
            withdraw.reset()
            setIsAsked(false)
          }}
        >
          Leave it set
        </Button>
      </div>
    </section>
  )
}

/** What jobs that take it now would take instead. */
function afterwards(id: string, records: readonly SequenceRecord[]): string {
  const taken = workTaking(id, records)
  if (taken.length === 0) return 'No job would take it now.'
  const others = records.filter(({ sequence }) => sequence.id !== id)
  const instead = taken.map((work) => {
    const next = others.find(({ sequence }) => workTaking(sequence.id, others).includes(work))
    return `“${work}” ${next ? `takes “${next.sequence.name}”` : 'has no order of steps'}`
  })
  return `From then on ${listed(instead)}.`
}
