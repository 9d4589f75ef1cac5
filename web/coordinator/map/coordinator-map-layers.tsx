import { useMemo } from 'react'
import { useMapClicks } from '../../map/map-clicks.tsx'
import { useMapColours } from '../../map/map-colours.ts'
import { hoverPole } from '../../state/hover.ts'
import { select } from '../../state/selection.ts'
import { useTheme } from '../../state/theme.ts'
import { listedPoles } from '../list/listed-poles.ts'
import { useSeasonDay } from '../season-day.ts'
import { useBirdRecord } from '../use-bird-record.ts'
import { usePlannedRound } from '../use-planned-round.ts'
import { HabitatAreas, NestBuffers } from './bird-areas.tsx'
import {
  bufferRings,
  findSpots,
  habitatAreas,
  itemSpots,
  nestSpots,
  poleSpots,
  roundFeatures,
} from './bird-layers.ts'
import { ExposureShading } from './exposure-shading.tsx'
import { FindMarks, ItemMarks, NestMarks, PoleMarks } from './map-marks.tsx'
import { PlannedRound } from './planned-round.tsx'
import { useShownLayers } from './shown-layers.ts'
import { useSymbolImages } from './use-symbol-images.ts'

const CLICKED = ['bird-poles', 'bird-items', 'bird-round-stops']

/** Poles by state over their exposure, nests with their buffers, finds, and the planned round. */
export function CoordinatorMapLayers() {
  const record = useBirdRecord()
  const theme = useTheme()
  const colours = useMapColours()
  const shown = useShownLayers()
  const features = useFeatures(record)
  const isReady = useSymbolImages(theme, colours)
  useMapClicks(
    CLICKED,
    ({ properties }) => select({ pole: String(properties.pole), view: null }),
    (feature) => hoverPole(feature ? String(feature.properties.pole) : null),
  )
  return (
    <>
      {shown.habitat && <HabitatAreas data={features.habitat} colours={colours} />}
      {shown.exposure && <ExposureShading data={features.poles} colours={colours} />}
      {shown.nests && <NestBuffers data={features.buffers} colours={colours} />}
      {isReady && shown.poles && <PoleMarks data={features.poles} theme={theme} />}
      {isReady && shown.items && <ItemMarks data={features.items} theme={theme} />}
      {shown.round && features.round && (
        <PlannedRound features={features.round} colours={colours} />
      )}
      {isReady && shown.finds && (
        <FindMarks data={features.finds} theme={theme} colours={colours} />
      )}
      {isReady && shown.nests && (
        <NestMarks data={features.nests} theme={theme} colours={colours} />
      )}
    </>
  )
}

function useFeatures(record: ReturnType<typeof useBirdRecord>) {
  const { feeder, items, settings } = record
  const listed = listedPoles(record)
  const day = useSeasonDay()
  const programme = usePlannedRound(feeder.header.id)?.programme
  return {
    poles: useMemo(() => poleSpots(listed), [listed]),
    items: useMemo(() => itemSpots(feeder.poles, items), [feeder, items]),
    nests: useMemo(() => nestSpots(feeder.nests), [feeder]),
    buffers: useMemo(() => bufferRings(feeder.nests, day, settings), [feeder, day, settings]),
    habitat: useMemo(() => habitatAreas(feeder), [feeder]),
    finds: useMemo(() => findSpots(feeder), [feeder]),
    round: useMemo(
      () => (programme ? roundFeatures(feeder.poles, programme) : null),
      [feeder, programme],
    ),
  }
}
