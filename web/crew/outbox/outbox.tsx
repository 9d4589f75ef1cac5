import { useState } from 'react'
import {
  answerConflict,
  clearKept,
  type OutboxItem,
  sendOutbox,
  setAside,
  useOutbox,
} from '../../api/outbox.ts'
import { Moment } from '../../record/moment.tsx'
import { counted } from '../../state/format.ts'
import { ArrivingTitle } from '../../ui/arriving-title.tsx'
import { Button } from '../../ui/button.tsx'
import { EmptyNote } from '../../ui/state-note.tsx'
import '../work/work.css'
import '../as-left/as-left.css'
import { ConnectionLine } from './connection-line.tsx'
import './outbox.css'
import { OutboxConflict } from './outbox-conflict.tsx'
import {
  outboxInWords,
  STANDING_TITLES,
  STANDINGS,
  type Standing,
  standingOf,
} from './outbox-words.ts'

/** What was entered on this device and what became of it. */
export function Outbox() {
  const items = useOutbox()
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
      {STANDINGS.map((standing) => (
        <Group
          key={standing}
          standing={standing}
          items={items.filter((item) => standingOf(item) === standing)}
        />
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

function Group({ standing, items }: ItemsProps & { readonly standing: Standing }) {
  if (items.length === 0) return null
  const list = (
    <ul className="outbox-list" aria-label={STANDING_TITLES[standing]}>
      {items.map((item) => (
        <Item key={item.id} item={item} standing={standing} />
      ))}
    </ul>
  )
  if (standing === 'kept' || standing === 'set aside') {
    return (
      <details className="work-fold">
        <summary>
          {STANDING_TITLES[standing]}: {items.length}
        </summary>
        {list}
      </details>
    )
  }
  return (
    <section className="stack">
      <h3>
        {STANDING_TITLES[standing]}: {items.length}
      </h3>
      {standing === 'refused' && items.length > 1 && <SendAllAgain items={items} />}
      {list}
    </section>
  )
}

/** As when a job had to be put into the field first: then all that came behind it goes through. */
function SendAllAgain({ items }: ItemsProps) {
  const send = async () => {
    for (const { id, input } of items) await answerConflict(id, input)
  }
  return <Button onClick={() => void send()}>Send all of them again</Button>
}

function Item({ item, standing }: { readonly item: OutboxItem; readonly standing: Standing }) {
  const { id, what, enteredAt, problem, input } = item
  return (
    <li className="stack" data-standing={standing}>
      <p>
        <strong>{what}</strong>
        <br />
        Entered <Moment at={enteredAt} />
      </p>
      {problem && standing !== 'kept' && <p>{problem}</p>}
      {standing === 'conflict' && <OutboxConflict item={item} />}
      {standing === 'refused' && (
        <div className="work-pair">
          <Button onClick={() => void answerConflict(id, input)}>Send it again</Button>
          <Button onClick={() => void setAside(id)}>Set it aside</Button>
        </div>
      )}
      {standing === 'waiting' && <SetAside id={id} what={what} />}
    </li>
  )
}

/** Asked twice, since what is set aside is not sent. */
function SetAside({ id, what }: { readonly id: string; readonly what: string }) {
  const [isSure, setIsSure] = useState(false)
  if (!isSure) {
    return (
      <Button aria-label={`Do not send: ${what}`} onClick={() => setIsSure(true)}>
        Do not send this
      </Button>
    )
  }
  return (
    <div className="work-pair">
      <Button look="danger" onClick={() => void setAside(id)}>
        Set it aside, it is not sent
      </Button>
      <Button onClick={() => setIsSure(false)}>Send it after all</Button>
    </div>
  )
}
