import type { ProtectionRecord } from '#contract/protections.ts'
import type { BirdPole } from '#domain/avian/pole-urgency.ts'
import { verdictInWords } from '#domain/avian/separation-words.ts'
import { Attachments } from '../record/attachments.tsx'
import { useFeeder } from '../state/feeder.tsx'
import { select } from '../state/selection.ts'
import { ArrivingTitle } from '../ui/arriving-title.tsx'
import { Button } from '../ui/button.tsx'
import { BirdNeighbourhood } from './bird-neighbourhood.tsx'
import { PoleItems } from './pole-items.tsx'
import { SeparationSketch } from './separation-sketch.tsx'
import { SeparationTable } from './separation-table.tsx'
import { VerdictMark } from './verdict-mark.tsx'

interface Props {
  readonly found: BirdPole
  readonly items: readonly ProtectionRecord[]
}

/** One pole as the bird record knows it. */
export function BirdPolePanel({ found, items }: Props) {
  const { pole, separation } = found
  const { feeder } = useFeeder()
  return (
    <article className="stack" aria-label={`Pole ${pole.id}`}>
      <Button onClick={() => select({ pole: null, view: null })}>Back to all poles</Button>
      <ArrivingTitle of={pole.id} className="bird-row-head">
        <VerdictMark verdict={separation.verdict} /> Pole {pole.id}
      </ArrivingTitle>
      <p>{verdictInWords(separation)}</p>
      {(pole.framing || pole.location) && (
        <p className="soft first-capital">
          {[pole.framing, pole.location].filter(Boolean).join('; ')}
        </p>
      )}
      <SeparationTable separation={separation} />
      <SeparationSketch separation={separation} />
      <PoleItems pole={pole.id} items={items} />
      <BirdNeighbourhood found={found} />
      <Attachments
        holder={{ feederId: feeder.header.id, attachedTo: 'pole', attachedToId: pole.id }}
        of={`pole ${pole.id}`}
      />
    </article>
  )
}
