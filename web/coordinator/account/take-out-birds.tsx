import { useMutation } from '@tanstack/react-query'
import { useMay } from '../../api/account.ts'
import { type BirdFile, takeOutBirds } from '../../api/take-out-birds.ts'
import { Button } from '../../ui/button.tsx'
import { ErrorNote } from '../../ui/state-note.tsx'

interface Wanted {
  readonly of: BirdFile
  readonly as: 'csv' | 'geojson'
}

const CHOICES: readonly (Wanted & { readonly words: string })[] = [
  { of: 'poles', as: 'csv', words: 'Poles as a table (CSV)' },
  { of: 'poles', as: 'geojson', words: 'Poles as a map layer (GeoJSON)' },
  { of: 'finds', as: 'csv', words: 'Finds as a table (CSV)' },
  { of: 'finds', as: 'geojson', words: 'Finds as a map layer (GeoJSON)' },
]

/** All poles with what birds can bridge on each, and all finds, as files for other programs. */
export function TakeOutBirds({ feederId }: { readonly feederId: string }) {
  const mayTakeOut = useMay('take the bird record out')
  const take = useMutation({ mutationFn: ({ of, as }: Wanted) => takeOutBirds(feederId, of, as) })
  if (!mayTakeOut) return null
  return (
    <section className="stack" aria-label="Take poles and finds out">
      <h3>Take poles and finds out</h3>
      <p className="small soft">
        Every pole of the feeder with its state and its tightest pair, and every find with all its
        fields. Places of finds can be used to find birds: hand them on with care.
      </p>
      <div className="row">
        {CHOICES.map(({ words, ...wanted }) => (
          <Button key={words} disabled={take.isPending} onClick={() => take.mutate(wanted)}>
            {words}
          </Button>
        ))}
      </div>
      {take.isPending && <p role="status">Writing the file…</p>}
      {take.isSuccess && <p role="status">The file was handed to the browser.</p>}
      {take.error && <ErrorNote title="The file was not made." error={take.error} />}
    </section>
  )
}
