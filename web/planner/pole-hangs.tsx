import { isBypassed } from '#domain/feeder/is-bypassed.ts'
import { customersInWords, equipmentInWords } from '../state/equipment-in-words.ts'
import { useFeeder } from '../state/feeder.tsx'
import { TakenOutBy } from './taken-out-line.tsx'

/** Equipment on the pole and who is served from it. */
export function PoleHangs({ pole }: { readonly pole: string }) {
  const { equipmentAt, loadsAt } = useFeeder()
  const equipment = equipmentAt.get(pole) ?? []
  const loads = loadsAt.get(pole) ?? []
  if (equipment.length + loads.length === 0) {
    return <p className="soft">Nothing but the line hangs on this pole.</p>
  }
  return (
    <div>
      <h3>What hangs on it</h3>
      <ul className="planner-bullets">
        {equipment.map((item) => (
          <li key={item.id}>
            {equipmentInWords(item)}
            {item.kind === 'regulator' && isBypassed(item) && (
              <>
                . <TakenOutBy bank={item} />
              </>
            )}
          </li>
        ))}
        {loads.map((load) => (
          <li key={load.id}>
            {load.name ? `${load.name}: ` : ''}
            {customersInWords(load) ?? 'load'}, {totalKw(load).toFixed(0)} kW recorded
          </li>
        ))}
      </ul>
    </div>
  )
}

function totalKw(load: {
  readonly kwA: number
  readonly kwB: number
  readonly kwC: number
  readonly kwAb: number
  readonly kwBc: number
  readonly kwCa: number
}): number {
  return load.kwA + load.kwB + load.kwC + load.kwAb + load.kwBc + load.kwCa
}
