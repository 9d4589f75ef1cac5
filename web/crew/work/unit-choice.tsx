import type { StepPlace } from '#domain/jobs/job-run.ts'
import { Button } from '../../ui/button.tsx'

interface Props {
  readonly places: readonly StepPlace[]
  readonly shown: number
  readonly onShow: (index: number) => void
}

/** A step that is done at each unit may begin at any of them. */
export function UnitChoice({ places, shown, onShow }: Props) {
  const open = places.flatMap((place, index) => (place.status === 'next' ? [{ place, index }] : []))
  if (open.length < 2 || !open.some(({ index }) => index === shown)) return null
  return (
    <fieldset className="work-choices">
      <legend>Units where this step is still to do</legend>
      {open.map(({ place, index }) => (
        <Button key={index} isPressed={index === shown} onClick={() => onShow(index)}>
          {place.phase} phase
        </Button>
      ))}
    </fieldset>
  )
}
