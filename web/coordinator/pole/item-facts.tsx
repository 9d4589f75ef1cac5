import type { ProtectionRecord } from '#contract/protections.ts'
import type { Part } from '#domain/avian/pole-top/part.ts'
import { partsInWords } from '../../birds/measure-words.ts'
import { usd } from '../../state/format.ts'

interface Props {
  readonly item: ProtectionRecord
  readonly parts: readonly Part[]
}

/** What else is recorded of an item, in one line; nothing where nothing is. */
export function ItemFacts({ item, parts }: Props) {
  const { measure, partIds = [], materialClass, installedBy, costUsd } = item
  const on = partIds.length > 0 ? ` on ${partsInWords(partIds, parts)}` : ''
  const facts = [
    measure && `${measure}${on}`,
    materialClass,
    installedBy && `installed by ${installedBy}`,
    costUsd !== undefined && usd(costUsd),
  ].filter(Boolean)
  if (facts.length === 0) return null
  return <span className="small soft first-capital">{facts.join('; ')}.</span>
}
