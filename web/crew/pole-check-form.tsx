import { useMemo, useState } from 'react'
import { useFeeder } from '../state/feeder.tsx'
import { listed } from '../state/format.ts'
import { select } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'
import {
  type AskedSign,
  askedAtPole,
  checkPole,
  type LikelyPole,
  type PoleCheck,
  type SeenAnswer,
} from './pole-check.ts'

/** "Is this the pole?": what should be seen from the ground, one question a line. */
export function PoleCheckForm({ poleId }: { readonly poleId: string }) {
  const [isOpen, setIsOpen] = useState(false)
  return (
    <section className="stack" aria-label="Is this the pole?">
      <h3>Is this the pole?</h3>
      <p>The tag decides. Where it is missing or cannot be read, say what you see.</p>
      {isOpen ? (
        <Questions key={poleId} poleId={poleId} />
      ) : (
        <Button onClick={() => setIsOpen(true)}>Check by what you see</Button>
      )}
    </section>
  )
}

const NO_ANSWERS: ReadonlyMap<string, SeenAnswer> = new Map()

function Questions({ poleId }: { readonly poleId: string }) {
  const model = useFeeder()
  const [answers, setAnswers] = useState(NO_ANSWERS)
  const asked = useMemo(() => askedAtPole(model, poleId), [model, poleId])
  const check = useMemo(() => checkPole(model, poleId, answers), [model, poleId, answers])
  const answer = (key: string, next: SeenAnswer) => {
    const changed = new Map(answers)
    // The same answer again takes it back: it could not be seen after all.
    if (answers.get(key) === next) changed.delete(key)
    else changed.set(key, next)
    setAnswers(changed)
  }
  return (
    <>
      <ul className="pole-check" aria-label="What you see">
        {asked.map(({ key, words }) => (
          <li key={key}>
            <fieldset className="pole-check-question">
              <legend>Do you see {words}?</legend>
              <Button isPressed={answers.get(key) === 'yes'} onClick={() => answer(key, 'yes')}>
                Yes
              </Button>
              <Button isPressed={answers.get(key) === 'no'} onClick={() => answer(key, 'no')}>
                No
              </Button>
            </fieldset>
          </li>
        ))}
      </ul>
      <div className="state-note" role="status" aria-label="What that means">
        <Verdict poleId={poleId} check={check} />
      </div>
    </>
  )
}

function Verdict({ poleId, check }: { readonly poleId: string; readonly check: PoleCheck }) {
  switch (check.kind) {
    case 'ask more':
      return (
        <span>
          {check.answersToGo === 1 ? 'One more answer' : `${check.answersToGo} answers`}, and this
          says which pole it fits. Leave out what you cannot see.
        </span>
      )
    case 'this one':
      return (
        <>
          <strong>Yes, this fits pole {poleId}</strong>
          <span>and no other pole nearby, as the record has them.</span>
        </>
      )
    case 'this or another':
      return (
        <>
          <strong>It fits pole {poleId}, and not only that one.</strong>
          <span>
            {listed(check.others.slice(0, MOST_NAMED).map(likelyInWords))}{' '}
            {check.others.length === 1 ? 'looks' : 'look'} the same by these answers. Answer more,
            or read the tags of the next poles.
          </span>
        </>
      )
    case 'another':
      return (
        <>
          <strong>
            Other pole likely: {check.likely.poleId} ({check.likely.where}) has what you see.
          </strong>
          <span>{againstInWords(poleId, check.against)}</span>
          <Button onClick={() => select({ pole: check.likely.poleId })}>
            Open pole {check.likely.poleId}
          </Button>
        </>
      )
    case 'none fits':
      return (
        <>
          <strong>This does not look like pole {poleId}, nor like a pole nearby.</strong>
          <span>
            {againstInWords(poleId, check.against)} The record may be behind, or this is farther
            off: read the tags, and ask before anyone climbs.
          </span>
        </>
      )
  }
}

const MOST_NAMED = 3

const likelyInWords = ({ poleId, where }: LikelyPole): string => `${poleId} (${where})`

function againstInWords(poleId: string, against: readonly AskedSign[]): string {
  const [missed, extra] = (['yes', 'no'] as const).map((expected) =>
    against.filter((sign) => sign.expected === expected).map(({ words }) => words),
  )
  return [
    missed?.length ? `You do not see ${listed(missed)}, which the record has at ${poleId}.` : '',
    extra?.length ? `You see ${listed(extra)}, which the record does not have there.` : '',
  ]
    .filter(Boolean)
    .join(' ')
}
