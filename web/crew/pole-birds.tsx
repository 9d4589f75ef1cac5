import type { Pole } from '#domain/feeder/pole.ts'
import { OpenPairsNote } from '../birds/open-pairs-note.tsx'
import { PoleStateMark } from '../birds/pole-state-mark.tsx'
import { PoleTopDrawing } from '../birds/pole-top-drawing.tsx'
import { usePoleBirds } from '../birds/use-pole-birds.ts'
import { ErrorNote, LoadingNote } from '../ui/state-note.tsx'
import { CrewFold } from './crew-fold.tsx'

/** What stands open for birds on a pole, for whoever works there anyway. */
export function PoleBirds({ pole }: { readonly pole: Pole }) {
  const { found, isLoading, error, retry } = usePoleBirds(pole.id)
  if (pole.isAnonymousNode) return null
  return (
    <section className="stack" aria-label="Birds on it">
      <h3>Birds on it</h3>
      {isLoading && <LoadingNote what="Fetching the bird record of this pole…" />}
      {error && <ErrorNote title="The bird record did not arrive" error={error} onRetry={retry} />}
      {found && (
        <>
          <p>
            <PoleStateMark state={found.assessment.state} />
          </p>
          <OpenPairsNote birds={found} />
          {found.assessment.poleTop && (
            <CrewFold title="Drawing of the pole top">
              <PoleTopDrawing
                parts={found.assessment.poleTop.parts}
                pairs={found.assessment.pairs}
                settings={found.settings}
              />
            </CrewFold>
          )}
        </>
      )}
    </section>
  )
}
