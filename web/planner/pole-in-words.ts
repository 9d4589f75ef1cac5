import type { Pole } from '#domain/feeder/pole.ts'
import type { Units } from '../state/address.ts'
import { inWords, length } from '../state/format.ts'

/** What the pole is: "39 ft wood pole, class 4, tangent, 10 ft arm, set 1994". */
export function poleInWords(pole: Pole, units: Units): string {
  if (pole.isAnonymousNode) return 'A point of a published feeder; it stands for no known pole.'
  const body = [
    pole.heightM === undefined ? '' : inWords(length(pole.heightM, units)),
    pole.material && pole.material !== 'unknown' ? pole.material : '',
    'pole',
  ]
  const parts = [
    body.filter(Boolean).join(' '),
    pole.poleClass === undefined ? '' : `class ${pole.poleClass}`,
    pole.framing ?? '',
    pole.installedYear === undefined ? '' : `set ${pole.installedYear}`,
  ]
  const text = parts.filter(Boolean).join(', ')
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`
}
