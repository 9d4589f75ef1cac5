import type { ChosenPole } from '#domain/avian/programme/programme.ts'
import { inchesOfMetres } from '#domain/units/length.ts'
import type { Units } from '../../state/address.ts'
import { counted, listed } from '../../state/format.ts'

/** "bushing cover on 3 parts and longer arm, 60 in" */
export function measuresInWords(measures: ChosenPole['measures'], units: Units): string {
  return listed(
    measures.map(({ kind, partIds, dimensionM }) => {
      if (dimensionM !== undefined) return `${kind}, ${lengthInWords(dimensionM, units)}`
      return partIds.length === 0 ? kind : `${kind} on ${counted(partIds.length, 'part')}`
    }),
  )
}

function lengthInWords(lengthM: number, units: Units): string {
  return units === 'us' ? `${inchesOfMetres(lengthM).toFixed(0)} in` : `${lengthM.toFixed(2)} m`
}
