/*
 * How a person's desk plugs in
 * ----------------------------
 * A person's folder (web/planner, web/coordinator, web/crew, web/supervisor) exports components without
 * properties; person-screens.ts names them:
 *
 * - Desk: what stands in the side panel (on a phone: in the sheet). Scrolling is done around it.
 * - MapLayers: sources and layers of the person, drawn inside the map. Use <Source> and <Layer> of
 *   @vis.gl/react-maplibre with `beforeId={SLOTS.marks}` (map/slots.ts says which slots there are),
 *   text in MAP_FONT (map/blank-style.ts), and useMapClicks (map/map-clicks.tsx) to react to clicks.
 *   Colours come from the theme: useMapColours (map/map-colours.ts).
 * - LegendRows: what the legend says of the person's own layers.
 * - Strip: replaces the voltage profile below the map; leave out to keep it.
 *
 * Inside them:
 * - useFeeder() (state/feeder.tsx): the open feeder with look-ups by pole.
 * - useSelection() and select({ pole, view, … }) (state/selection.ts): what is selected, in the page
 *   address. `view` is the desk's own: which part of it stands open.
 * - useHoveredPole(), hoverPole(id) (state/hover.ts): pole under the pointer, on map, strip and lists.
 * - showWorking({ … }) (state/working.ts) opens the "Working shown" sheet for a computed figure.
 * - showPlace(position) (state/camera.ts) brings the map to a place; choosing a pole in a list wants it.
 * - api/*: one file of hooks per resource; the acting person is sent along by itself.
 * - ui/*: buttons, fields, lists, figures, notes for loading, empty and error states.
 */
import { lazy, Suspense, useEffect, useState } from 'react'
import { useMe } from './api/account.ts'
import { standAt } from './api/actor.ts'
import { useFeederList } from './api/feeders.ts'
import { useSessionEnded } from './api/signed-in.ts'
import { FeederPage } from './feeder-page.tsx'
import { LoadingPage } from './shell/loading-page.tsx'
import { OpenSheet } from './shell/open-sheet.tsx'
import { StartPage } from './shell/start-page.tsx'
import { invitationOfAddress, leaveInvitation } from './state/invitation-address.ts'
import { useSelection } from './state/selection.ts'
import { ErrorNote } from './ui/state-note.tsx'

const EntryPage = lazy(async () => ({
  default: (await import('./entry/entry-page.tsx')).EntryPage,
}))
const EntryCover = lazy(async () => ({
  default: (await import('./entry/entry-cover.tsx')).EntryCover,
}))
const InvitationPage = lazy(async () => ({
  default: (await import('./entry/invitation-page.tsx')).InvitationPage,
}))

/** Whoever is signed in gets the feeder; whoever is not, the ways in. */
export function App() {
  const { person } = useSelection()
  const [invitation, setInvitation] = useState(invitationOfAddress)
  const isEnded = useSessionEnded()
  const me = useMe()
  // Asked for beside the person, so that nothing waits for two answers.
  useFeederList()
  useEffect(() => standAt(person), [person])

  if (invitation !== null) {
    const leave = () => {
      leaveInvitation()
      setInvitation(null)
    }
    return (
      <Suspense fallback={<LoadingPage what="Opening the invitation…" />}>
        <InvitationPage token={invitation} onDone={leave} />
      </Suspense>
    )
  }
  if (me.data) {
    return (
      <>
        <FeederPage key={me.data.id} />
        <OpenSheet />
        <Suspense>{isEnded && <EntryCover />}</Suspense>
      </>
    )
  }
  if (isEnded) {
    return (
      <Suspense fallback={<LoadingPage what="Opening the sign-in…" />}>
        <EntryPage />
      </Suspense>
    )
  }
  if (me.isError) {
    return (
      <StartPage>
        <ErrorNote
          title="The server did not say who is signed in."
          error={me.error}
          onRetry={() => void me.refetch()}
        />
      </StartPage>
    )
  }
  return <LoadingPage what="Asking who is signed in…" />
}
