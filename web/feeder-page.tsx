import { useEffect } from 'react'
import { useMay, useMe } from './api/account.ts'
import { useFeederAnswer, useFeederList, useLand } from './api/feeders.ts'
import { AddFeeder } from './planner/add-feeder.tsx'
import { FeederNotOpened } from './shell/feeder-not-opened.tsx'
import { LoadingPage } from './shell/loading-page.tsx'
import { Shell } from './shell/shell.tsx'
import { StartPage } from './shell/start-page.tsx'
import { arriveAtDesk } from './state/arrive-at-desk.ts'
import { FeederProvider } from './state/feeder.tsx'
import { select, useSelection } from './state/selection.ts'
import { EmptyNote } from './ui/state-note.tsx'

/** The open feeder, or how to come to one. */
export function FeederPage() {
  const roles = useMe().data?.roles
  const mayAdd = useMay('take in a feeder')
  const { feeder: feederId } = useSelection()
  const list = useFeederList()
  const answer = useFeederAnswer(feederId)
  const first = list.data?.find(({ origin }) => origin === 'demo') ?? list.data?.[0]
  // Asked for beside the feeder, so that the map has its land as soon as it is drawn.
  useLand((list.data?.find(({ id }) => id === feederId) ?? first)?.place ?? null)

  useEffect(() => {
    if (feederId !== null || !first) return
    arriveAtDesk(roles ?? [])
    select({ feeder: first.id })
  }, [feederId, first, roles])

  if (list.isError || answer.isError) {
    const retry = () => void (list.isError ? list.refetch() : answer.refetch())
    return (
      <StartPage>
        <FeederNotOpened
          what={list.isError ? 'feeders' : 'feeder'}
          error={list.error ?? answer.error}
          onRetry={retry}
        />
      </StartPage>
    )
  }
  if (list.data?.length === 0) {
    return (
      <StartPage>
        {mayAdd ? (
          <>
            <EmptyNote what="There is no feeder yet. Add the first one here." />
            <AddFeeder isFirst />
          </>
        ) : (
          <EmptyNote what="There is no feeder yet. A planner or a bird coordinator adds the first one." />
        )}
      </StartPage>
    )
  }
  if (!answer.data) {
    return <LoadingPage what="Opening the feeder…" />
  }
  return (
    <FeederProvider feeder={answer.data.feeder} version={answer.data.version}>
      <Shell key={answer.data.feeder.header.id} />
    </FeederProvider>
  )
}
