import type { Invited } from '#contract/people.ts'
import { momentInWords } from '../record/moment-in-words.ts'
import { Button } from '../ui/button.tsx'
import { ShownOnce } from './shown-once.tsx'

interface Props {
  readonly invited: Invited
  readonly onDone: () => void
}

/** The link to hand over, by whatever way is safe at the utility. */
export function InvitationLink({ invited, onDone }: Props) {
  const { person, link, endsAt } = invited
  return (
    <section className="state-note invitation-link" aria-label={`Link for ${person.name}`}>
      <p>
        <strong>Hand this link to {person.name}.</strong> Whoever opens it sets the password, so
        give it to nobody else. It works once, until{' '}
        <time dateTime={endsAt}>{momentInWords(endsAt)}</time>, and is not shown again.
      </p>
      <ShownOnce name="link" text={link} />
      <Button onClick={onDone}>Done with the link</Button>
    </section>
  )
}
