import { pairInWords } from '#domain/avian/pole-top/pair-words.ts'
import { counted } from '../../state/format.ts'
import type { ListedPole } from './listed-pole.ts'

/** Why a pole stands where it stands in the list, the weightiest first; never empty. */
export function poleReasons(
  { assessment, exposure, ranked }: ListedPole,
  speciesName: string,
  inInches: boolean,
): string[] {
  if (assessment === null) return ['Not assessed yet.']
  const [tightest] = assessment.pairs
  const what = tightest
    ? `${counted(assessment.pairs.length, 'pair')} open, the tightest for the ${pairInWords(tightest, speciesName, inInches)}.`
    : closedInWords(assessment.state, (ranked?.hazard ?? 0) > 0, speciesName)
  const why = exposure?.reasons.join('; ') ?? ''
  return why === '' ? [what] : [what, `${capitalised(why)}.`]
}

function closedInWords(state: string, isForOthers: boolean, speciesName: string): string {
  if (state === 'unknown') return 'Nothing recorded from which the pole top could be drawn.'
  const rest = isForOthers ? ', but another listed species can.' : '.'
  return `The ${speciesName} can bridge no pair here${rest}`
}

const capitalised = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)
