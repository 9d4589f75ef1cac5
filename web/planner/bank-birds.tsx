import { useMemo } from 'react'
import { proposedRegulator } from '#domain/siting/proposed-regulator.ts'
import type { ProposedBank } from '#domain/siting/site-result.ts'
import { OpenPairsNote } from '../birds/open-pairs-note.tsx'
import { PoleTopDrawing } from '../birds/pole-top-drawing.tsx'
import { usePoleBirds } from '../birds/use-pole-birds.ts'
import { select } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'
import { ErrorNote, LoadingNote } from '../ui/state-note.tsx'

/** What birds could bridge on the pole once the bank stands there: one pole, one visit. */
export function BankBirds({ bank }: { readonly bank: ProposedBank }) {
  const proposed = useMemo(() => [proposedRegulator(bank)], [bank])
  const { found, isLoading, error, retry } = usePoleBirds(bank.pole, proposed)
  return (
    <section className="stack" aria-label={`Birds on pole ${bank.pole} with the bank`}>
      <h3>One pole, one visit</h3>
      <p className="soft small">
        With the bank on it, pole {bank.pole} needs these for birds; done in the same visit they
        cost no second way there.
      </p>
      {isLoading && <LoadingNote what="Fetching the bird record of this pole…" />}
      {error && <ErrorNote title="The bird record did not arrive" error={error} onRetry={retry} />}
      {found && (
        <>
          <OpenPairsNote birds={found} />
          {found.assessment.poleTop && (
            <details>
              <summary>The pole top with the bank, to scale</summary>
              <PoleTopDrawing
                parts={found.assessment.poleTop.parts}
                pairs={found.assessment.pairs}
                settings={found.settings}
              />
            </details>
          )}
        </>
      )}
      <div>
        <Button onClick={() => select({ person: 'coordinator', pole: bank.pole, view: null })}>
          Show its birds’ side
        </Button>
      </div>
    </section>
  )
}
