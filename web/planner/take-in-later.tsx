import type { TakeInBody } from '#contract/feeders.ts'
import { hasEnded } from '#contract/work.ts'
import { useWork, useWorkChanges } from '../api/long-work.ts'
import { openSheet } from '../state/sheet.ts'
import { Button } from '../ui/button.tsx'
import { ErrorNote } from '../ui/state-note.tsx'

/** For a feeder of many thousand poles: it is read and checked while the planner goes on. */
export function TakeInLater({ layers }: { readonly layers: TakeInBody['layers'] | null }) {
  const { takeIn } = useWorkChanges()
  const work = useWork(takeIn.data?.workId ?? null).data
  return (
    <>
      <div className="row">
        <Button
          disabled={layers === null || takeIn.isPending}
          onClick={() => layers && takeIn.mutate({ layers })}
        >
          {takeIn.isPending ? 'Sending the layers…' : 'Add it in the background'}
        </Button>
      </div>
      <p className="small soft">For a large feeder: you can go on while it is checked.</p>
      {takeIn.error && <ErrorNote title="The layers did not arrive." error={takeIn.error} />}
      {work && (
        <p role="status">
          {hasEnded(work.state) ? `The work is ${work.state}. ` : `${work.phase}… `}
          <Button look="plain" onClick={() => openSheet('work')}>
            Work under way and done
          </Button>
        </p>
      )}
    </>
  )
}
