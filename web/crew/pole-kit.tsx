import type { Pole } from '#domain/feeder/pole.ts'
import { feetOfMetres } from '#domain/units/length.ts'
import { useProtections } from '../api/protections.ts'
import type { Units } from '../state/address.ts'
import { customersInWords, equipmentInWords } from '../state/equipment-in-words.ts'
import { useFeeder } from '../state/feeder.tsx'
import { useSelection } from '../state/selection.ts'

/** What hangs on a pole, in words that can be held against what the crew sees. */
export function PoleKit({ pole }: { readonly pole: Pole }) {
  const { equipmentAt, loadsAt, feeder } = useFeeder()
  const { units } = useSelection()
  const { data, error } = useProtections(feeder.header.id)
  const items = data?.filter((item) => item.pole === pole.id && item.state !== 'removed') ?? []
  const lines = [
    ...(equipmentAt.get(pole.id) ?? []).map((item) => [item.id, equipmentInWords(item)] as const),
    ...(loadsAt.get(pole.id) ?? []).map((load) => [load.id, customersInWords(load)] as const),
    ...items.map(({ id, kind, what, state }) => [id, `Bird ${kind}: ${what} (${state})`] as const),
  ].filter(([, line]) => line !== null)
  return (
    <section className="stack" aria-label="What hangs on it">
      <h3>What hangs on it</h3>
      <p>{poleInWords(pole, units)}</p>
      {lines.length === 0 ? (
        <p>No equipment is recorded here.</p>
      ) : (
        <ul className="crew-kit">
          {lines.map(([id, line]) => (
            <li key={`${id} ${line}`}>{line}</li>
          ))}
        </ul>
      )}
      {error && <p role="alert">Bird covers and perches did not arrive: {error.message}</p>}
    </section>
  )
}

function poleInWords(pole: Pole, units: Units): string {
  const height = pole.heightM && lengthOf(pole.heightM, units)
  const parts = [
    height && `${height} pole`,
    pole.poleClass && `class ${pole.poleClass}`,
    pole.material !== 'unknown' && pole.material,
    pole.framing,
    pole.installedYear && `set in ${pole.installedYear}`,
  ].filter(Boolean)
  return parts.length > 0 ? `${parts.join(', ')}.` : 'Height, class and framing are not recorded.'
}

function lengthOf(heightM: number, units: Units): string {
  return units === 'us' ? `${Math.round(feetOfMetres(heightM))} ft` : `${heightM.toFixed(1)} m`
}
