import type { BirdFigures } from '#domain/avian/pole-urgency.ts'
import { useMay } from '../api/account.ts'

const counted = (count: number, one: string, many: string): string =>
  `${count} ${count === 1 ? one : many}`

/** The first line of the desk: what the record says today. */
export function FiguresLine({ figures }: { readonly figures: BirdFigures }) {
  const maySeeNests = useMay('see nests and incidents')
  const { poles, bridgeable, bridgeableNearNest, unknown, failedItems } = figures
  return (
    <p className="bird-figures">
      <strong>
        {counted(bridgeable, 'pole', 'poles')} where an eagle can bridge parts by the recorded
        separations
      </strong>
      , of {poles};{' '}
      {maySeeNests
        ? `${bridgeableNearNest} within half a mile of a nest in use`
        : 'how many are near a nest is not shown to readers'}
      ; {counted(failedItems, 'item', 'items')} failed; {counted(unknown, 'pole', 'poles')} not
      settled by what is recorded.
    </p>
  )
}
