import { useEffect } from 'react'
import type { Pole } from '#domain/feeder/pole.ts'
import { Attachments } from '../record/attachments.tsx'
import { showPlace } from '../state/camera.ts'
import { useFeeder } from '../state/feeder.tsx'
import { ArrivingTitle } from '../ui/arriving-title.tsx'
import { Button } from '../ui/button.tsx'
import { JobsAtPole } from './jobs/jobs-at-pole.tsx'
import { PoleAccess } from './pole-access.tsx'
import { PoleBirds } from './pole-birds.tsx'
import { PoleCheckForm } from './pole-check-form.tsx'
import { PoleKit } from './pole-kit.tsx'
import { PoleNeighbours } from './pole-neighbours.tsx'
import { PolePlace } from './pole-place.tsx'
import { PoleVoltage } from './pole-voltage.tsx'

interface Props {
  readonly pole: Pole
  /** Where the way back leads, as the button says it. */
  readonly back: string
  readonly onBack: () => void
}

/** One pole, for whoever has to stand under it. */
export function CrewPole({ pole, back, onBack }: Props) {
  const { feeder } = useFeeder()
  // However the pole was opened, by a list, a link or another person's desk, the map goes to it.
  useEffect(() => showPlace(pole.at), [pole])
  return (
    <article className="stack" aria-label={`Pole ${pole.id}`}>
      <Button onClick={onBack}>{back}</Button>
      <ArrivingTitle of={pole.id} className="crew-title">
        Pole {pole.id}
      </ArrivingTitle>
      {pole.isAnonymousNode && <p>A point of a published feeder; it stands for no known pole.</p>}
      <JobsAtPole poleId={pole.id} />
      <PolePlace pole={pole} />
      <PoleAccess pole={pole} />
      <PoleKit pole={pole} />
      <PoleNeighbours pole={pole} />
      <PoleCheckForm poleId={pole.id} />
      <PoleBirds pole={pole} />
      <PoleVoltage poleId={pole.id} />
      <Attachments
        holder={{ feederId: feeder.header.id, attachedTo: 'pole', attachedToId: pole.id }}
        of={`pole ${pole.id}`}
      />
    </article>
  )
}
