import { useState } from 'react'
import { answerConflict, type OutboxItem, setAside } from '../../api/outbox.ts'
import { Moment } from '../../record/moment.tsx'
import { counted } from '../../state/format.ts'
import { Button } from '../../ui/button.tsx'
import { OutboxConflict } from './outbox-conflict.tsx'
import { hangTogether, type OutboxGroup } from './outbox-groups.ts'
import { outboxInWords, STANDING_TITLES, standingOf } from './outbox-words.ts'

interface Props {
  readonly group: OutboxGroup
  readonly title: string
}

/** All that was entered of one job: what needs the person first, the rest folded with its number. */
export function OutboxGroupPart({ group, title }: Props) {
  const { forYou, unsent, settled } = group
  const refused = forYou.filter((item) => standingOf(item) === 'refused')
  return (
    <section className="outbox-group stack" aria-label={title}>
      <h3>{title}</h3>
      <p>{outboxInWords([...forYou, ...unsent])}</p>
      {refused.length > 1 && <SendAllAgain items={refused} />}
      <Items label={`Needs you, ${title}`} items={forYou} />
      <Fold name="Waiting on this device" items={unsent} title={title} />
      {hangTogether(group) && <NothingOfIt items={unsent} />}
      <Fold name="Arrived or set aside" items={settled} title={title} />
    </section>
  )
}

interface ItemsProps {
  readonly items: readonly OutboxItem[]
}

function Fold({ name, items, title }: ItemsProps & { name: string; title: string }) {
  const [isShown, setIsShown] = useState(false)
  if (items.length === 0) return null
  return (
    <details
      className="work-fold"
      open={isShown}
      onToggle={({ currentTarget }) => setIsShown(currentTarget.open)}
    >
      <summary>
        {name}: {items.length}
      </summary>
      {isShown && <Items label={`${name}, ${title}`} items={items} />}
    </details>
  )
}

function Items({ label, items }: ItemsProps & { readonly label: string }) {
  if (items.length === 0) return null
  return (
    <ul className="outbox-list" aria-label={label}>
      {items.map((item) => (
        <Item key={item.id} item={item} />
      ))}
    </ul>
  )
}

/** As when a job had to be put into the field first: then all that came behind it goes through. */
function SendAllAgain({ items }: ItemsProps) {
  const send = async () => {
    for (const { id, input } of items) await answerConflict(id, input)
  }
  return <Button onClick={() => void send()}>Send all of them again</Button>
}

function Item({ item }: { readonly item: OutboxItem }) {
  const { id, what, enteredAt, problem, input } = item
  const standing = standingOf(item)
  return (
    <li className="stack" data-standing={standing}>
      <p>
        <strong>{what}</strong>
        <br />
        Entered <Moment at={enteredAt} />. {STANDING_TITLES[standing]}.
      </p>
      {problem && standing !== 'kept' && <p>{problem}</p>}
      {standing === 'conflict' && <OutboxConflict item={item} />}
      {standing === 'refused' && (
        <div className="work-pair">
          <Button onClick={() => void answerConflict(id, input)}>Send it again</Button>
          <Button onClick={() => void setAside(id)}>Set it aside</Button>
        </div>
      )}
      {standing === 'waiting' && (
        <DoNotSend
          words="Do not send this"
          label={`Do not send: ${what}`}
          sure="Set it aside, it is not sent"
          onSure={() => void setAside(id)}
        />
      )}
    </li>
  )
}

/** Of steps that hang on each other one alone helps little: what comes after it would be refused. */
function NothingOfIt({ items }: ItemsProps) {
  const aside = async () => {
    // From the last one, so that nothing is sent without what it hangs on.
    for (const { id } of items.toReversed()) await setAside(id)
  }
  return (
    <DoNotSend
      words="Do not send any of it"
      meaning={`${counted(items.length, 'thing')} entered here hang on each other. Set aside, they stay listed on this device until you clear them, and the server learns of none: there the job stands as it was.`}
      sure={`Set all ${items.length} aside`}
      onSure={() => void aside()}
    />
  )
}

interface DoNotSendProps {
  readonly words: string
  readonly label?: string
  readonly meaning?: string
  readonly sure: string
  readonly onSure: () => void
}

/** Asked twice, since what is set aside is not sent. */
function DoNotSend({ words, label, meaning, sure, onSure }: DoNotSendProps) {
  const [isAsked, setIsAsked] = useState(false)
  if (!isAsked) {
    return (
      <Button aria-label={label} onClick={() => setIsAsked(true)}>
        {words}
      </Button>
    )
  }
  return (
    <>
      {meaning && <p>{meaning}</p>}
      <div className="work-pair">
        <Button look="danger" onClick={onSure}>
          {sure}
        </Button>
        <Button onClick={() => setIsAsked(false)}>Send it after all</Button>
      </div>
    </>
  )
}
