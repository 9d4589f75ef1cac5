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
  return sentence(parts.filter(Boolean).join(', '))
}

/** A phrase as a sentence: a capital in front, a full stop behind. */
export function sentence(phrase: string): string {
  const end = /[.!?]$/.test(phrase) ? '' : '.'
  return `${phrase.charAt(0).toUpperCase()}${phrase.slice(1)}${end}`
}
