import type { PoleAssessment } from '#domain/avian/assessment/pole-assessment.ts'
import { counted } from '../state/format.ts'

/** One sentence about the whole pole: "Open: the eagle can bridge 11 pairs here." */
export function stateInWords(
  { state, pairs, pairsAsFramed }: PoleAssessment,
  species: string,
): string {
  const left = counted(pairs.length, 'pair')
  switch (state) {
    case 'separated':
      return `As it is framed, ${species} can bridge no pair here.`
    case 'covered':
      return `What is installed and sound closes all ${counted(pairsAsFramed, 'pair')} that ${species} could bridge.`
    case 'partly done':
      return `Something is installed, and ${species} can still bridge ${left} of ${pairsAsFramed}.`
    case 'failed':
      return `Something installed has failed: ${species} can bridge ${left} here again.`
    case 'open':
      return `Nothing is done here, and ${species} can bridge ${left}.`
    case 'unknown':
      return 'Nothing is recorded from which the top of this pole could be drawn.'
  }
}
