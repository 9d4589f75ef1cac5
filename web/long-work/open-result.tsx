import { TakenIn } from '#contract/feeders.ts'
import type { WorkSummary } from '#contract/work.ts'
import { useWork } from '../api/long-work.ts'
import { select } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'

const NOTHING_ELSE = { choice: null, proposal: null, moved: null, view: null } as const

export function openStudy({ id, feederId }: WorkSummary): void {
  select({ feeder: feederId, person: 'planner', study: id, ...NOTHING_ELSE })
}

interface Props {
  readonly item: WorkSummary
  readonly onOpened: () => void
}

/** Which feeder it became is part of the result, so that is asked for first. */
export function OpenTakenIn({ item, onOpened }: Props) {
  const taken = TakenIn.safeParse(useWork(item.id).data?.result)
  if (!taken.success) return null
  const { id, version } = taken.data
  return (
    <Button
      onClick={() => {
        select({ feeder: id, study: null, ...NOTHING_ELSE })
        onOpened()
      }}
    >
      Open {id}, version {version}
    </Button>
  )
}
