import type { ProtectionRecord } from '#contract/protections.ts'
import { inspectionDue } from '#domain/avian/assessment/inspection-due.ts'
import type { BirdSettings } from '#domain/avian/bird-settings.ts'
import { localToday } from '../../state/today.ts'
import { CONDITION_WORDS } from './item-fields.tsx'

interface Props {
  readonly item: ProtectionRecord
  readonly settings: BirdSettings | undefined
}

/** Last inspection of an item, and when the next is due. */
export function InspectionLine({ item, settings }: Props) {
  const { condition, inspectedOn } = item
  const due = inspectionDue(item, settings)
  const isOverdue = due !== null && due.dueOn < localToday()
  if (item.state === 'planned' || item.state === 'removed') return null
  return (
    <span className="small">
      {inspectedOn
        ? `Inspected ${inspectedOn}: ${CONDITION_WORDS[condition ?? ''] ?? condition}.`
        : 'Not inspected yet.'}{' '}
      {due && (
        <span className={isOverdue ? 'inspection-overdue' : undefined}>
          {isOverdue ? `⚑ Overdue since ${due.dueOn}.` : `Next look due ${due.dueOn}.`}
        </span>
      )}
    </span>
  )
}
