import { followUpRule, followUpSteps } from '#domain/avian/account/follow-up.ts'
import type { BirdSettings } from '#domain/avian/bird-settings.ts'
import type { Incident } from '#domain/feeder/birds.ts'
import { counted } from '../../state/format.ts'

interface Props {
  readonly finds: readonly Incident[]
  readonly settings: BirdSettings | undefined
  readonly today: string
}

/** First line of the finds: how much is overdue and how much is still to come. */
export function DueLine({ finds, settings, today }: Props) {
  const steps = finds.flatMap((find) =>
    followUpSteps(find, followUpRule(find.species, settings).days, today),
  )
  const overdue = steps.filter(({ state }) => state === 'overdue').length
  const waiting = steps.filter(({ state }) => state === 'waiting').length
  return (
    <p className="bird-figures">
      <strong>{counted(overdue, 'step')} overdue</strong>, {waiting} still to come, after{' '}
      {counted(finds.length, 'find')}.
    </p>
  )
}
