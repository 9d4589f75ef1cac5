import type { PoleAssessment } from '#domain/avian/assessment/pole-assessment.ts'
import type { BirdSettings } from '#domain/avian/bird-settings.ts'
import {
  INDEX_SOURCE,
  indexInputs,
  publishedIndexClass,
} from '#domain/avian/exposure/published-index.ts'
import { HowSure } from '../../birds/how-sure.tsx'
import { counted } from '../../state/format.ts'

interface Props {
  readonly poleTop: NonNullable<PoleAssessment['poleTop']>
  readonly settings: BirdSettings | undefined
}

/** Class by the published index, with what was read off the drawing; nothing without coefficients. */
export function IndexClass({ poleTop, settings }: Props) {
  const own = settings?.publishedIndex
  const inputs = indexInputs(poleTop)
  const found = publishedIndexClass(inputs, own)
  if (!own || found === null) return null
  const read = [
    counted(inputs.phases, 'phase'),
    counted(inputs.jumpers, 'jumper'),
    inputs.isGrounded ? 'grounded' : 'not grounded',
  ]
  return (
    <p>
      By the published index: <strong>{found}</strong> ({read.join(', ')}). Coefficients copied by{' '}
      {own.copiedBy}, {own.copiedOn}. <HowSure sureness="published" source={INDEX_SOURCE} />
    </p>
  )
}
