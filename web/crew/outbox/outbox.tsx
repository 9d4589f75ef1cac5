import { useState } from 'react'
import { useJobs } from '../../api/jobs.ts'
import { clearKept, type OutboxItem, sendOutbox, useOutbox } from '../../api/outbox.ts'
import { counted } from '../../state/format.ts'
import { ArrivingTitle } from '../../ui/arriving-title.tsx'
import { Button } from '../../ui/button.tsx'
import { EmptyNote } from '../../ui/state-note.tsx'
import '../work/work.css'
import '../as-left/as-left.css'
import { ConnectionLine } from './connection-line.tsx'
import './outbox.css'
import { OutboxGroupPart } from './outbox-group.tsx'
import { groupOutbox } from './outbox-groups.ts'
import { outboxInWords, standingOf } from './outbox-words.ts'

/** What was entered on this device and what became of it. */
export function Outbox() {
  const items = useOutbox()
  const jobs = useJobs(null).data ?? []
  const titleOf = (jobId: string | null) =>
    jobId === null
      ? 'Of no job'
      : (jobs.find(({ id }) => id === jobId)?.title ?? 'A job that is not on this device')
  return (
    <article className="work stack" aria-label="Outbox">
      <ArrivingTitle of="outbox" className="step-place">
        {outboxInWords(items)}
      </ArrivingTitle>
      <ConnectionLine />
      <SendNow items={items} />
      {items.length === 0 && (
        <EmptyNote what="What is entered in the field is listed here until it has arrived. Nothing has been entered on this device yet." />
      )}
      {groupOutbox(items).map((group) => (
        <OutboxGroupPart key={group.jobId ?? ''} group={group} title={titleOf(group.jobId)} />
      ))}
      <ClearArrived items={items} />
    </article>
  )
}

interface ItemsProps {
  readonly items: readonly OutboxItem[]
}

function SendNow({ items }: ItemsProps) {
  const [isSending, setIsSending] = useState(false)
  if (!items.some(({ state }) => state === 'waiting')) return null
  const send = async () => {
    setIsSending(true)
    await sendOutbox().finally(() => setIsSending(false))
  }
  return (
    <Button look="main" className="work-main" disabled={isSending} onClick={() => void send()}>
      {isSending ? 'Sending…' : 'Send now'}
    </Button>
  )
}

function ClearArrived({ items }: ItemsProps) {
  const done = items.filter((item) => ['kept', 'set aside'].includes(standingOf(item)))
  if (done.length === 0) return null
  return (
    <Button onClick={() => void clearKept()}>
      Clear {counted(done.length, 'thing')} that arrived or {done.length === 1 ? 'was' : 'were'} set
      aside
    </Button>
  )
}
