/*
 * How a person's desk plugs in
 * ----------------------------
 * A person's folder (web/planner, web/coordinator, web/crew) exports components without
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
import { useEffect } from 'react'
import { useFeederAnswer, useFeederList, useLand } from './api/feeders.ts'
import { AddFeeder } from './planner/add-feeder.tsx'
import { OtherFeeders } from './shell/other-feeders.tsx'
import { Shell } from './shell/shell.tsx'
import { StartPage } from './shell/start-page.tsx'
import { FeederProvider } from './state/feeder.tsx'
import { select, useSelection } from './state/selection.ts'
import { EmptyNote, ErrorNote, LoadingNote } from './ui/state-note.tsx'

export function App() {
  const { feeder: feederId } = useSelection()
  const list = useFeederList()
  const answer = useFeederAnswer(feederId)
  const first = list.data?.find(({ origin }) => origin === 'demo') ?? list.data?.[0]
  // Asked for beside the feeder, so that the map has its land as soon as it is drawn.
  useLand((list.data?.find(({ id }) => id === feederId) ?? first)?.place ?? null)

  useEffect(() => {
    if (feederId === null && first) select({ feeder: first.id })
  }, [feederId, first])

  if (list.isError || answer.isError) {
    const retry = () => void (list.isError ? list.refetch() : answer.refetch())
    return (
      <StartPage>
        <ErrorNote
          title={
            list.isError ? 'The feeders could not be listed.' : 'The feeder could not be opened.'
          }
          error={list.error ?? answer.error}
          onRetry={retry}
        />
        <OtherFeeders />
      </StartPage>
    )
  }
  if (list.data?.length === 0) {
    return (
      <StartPage>
        <EmptyNote what="There is no feeder yet. Add the first one here." />
        <AddFeeder isFirst />
      </StartPage>
    )
  }
  if (!answer.data) {
    return (
      <StartPage>
        <LoadingNote what="Opening the feeder…" />
      </StartPage>
    )
  }
  return (
    <FeederProvider feeder={answer.data.feeder} version={answer.data.version}>
      <Shell key={answer.data.feeder.header.id} />
    </FeederProvider>
  )
}
