import { Layer, Source } from '@vis.gl/react-maplibre'
import type { FeatureCollection } from 'geojson'
import { useMemo } from 'react'
import type { SiteResult } from '#domain/siting/site-result.ts'
import { MAP_FONT } from '../map/blank-style.ts'
import { useMapClicks } from '../map/map-clicks.tsx'
import { useMapColours } from '../map/map-colours.ts'
import { SLOTS } from '../map/slots.ts'
import { useFeeder } from '../state/feeder.tsx'
import type { FeederModel } from '../state/feeder-model.ts'
import { select } from '../state/selection.ts'
import { previewBanks } from '../state/trial.ts'
import { regulatorOfBank } from './trial-banks.ts'

const LAYER = 'proposal-marks'

/** Proposals by their rank; pointing at one previews it, clicking chooses it. */
export function ProposalMarks({ result }: { readonly result: SiteResult }) {
  const model = useFeeder()
  const colours = useMapColours()
  const banksByRank = useMemo(
    () => new Map(result.proposals.map(({ rank, banks }) => [rank, banks.map(regulatorOfBank)])),
    [result],
  )
  useMapClicks(
    [LAYER],
    ({ properties }) => {
      previewBanks(null)
      select({ choice: String(properties.rank), moved: null })
    },
    (feature) => previewBanks(banksByRank.get(feature?.properties.rank) ?? null),
  )
  return (
    <Source id={LAYER} type="geojson" data={marksOf(model, result)}>
      <Layer
        id={LAYER}
        type="circle"
        beforeId={SLOTS.marks}
        paint={{
          'circle-radius': 11,
          'circle-color': colours.accent,
          'circle-stroke-color': colours.paper,
          'circle-stroke-width': 2,
          'circle-translate': [0, -20],
        }}
      />
      <Layer
        id="proposal-ranks"
        type="symbol"
        beforeId={SLOTS.labels}
        layout={{
          'text-field': ['to-string', ['get', 'rank']],
          'text-font': MAP_FONT,
          'text-size': 14,
          'text-allow-overlap': true,
          'text-ignore-placement': true,
          'symbol-sort-key': ['-', 0, ['get', 'rank']],
        }}
        paint={{ 'text-color': colours.paper, 'text-translate': [0, -20] }}
      />
    </Source>
  )
}

function marksOf({ poleById }: FeederModel, { proposals }: SiteResult): FeatureCollection {
  return {
    type: 'FeatureCollection',
    features: proposals.toReversed().flatMap(({ banks, rank }) =>
      banks.flatMap(({ pole }) => {
        const at = poleById.get(pole)?.at
        if (!at) return []
        const geometry = { type: 'Point' as const, coordinates: at }
        return [{ type: 'Feature' as const, geometry, properties: { rank, pole } }]
      }),
    ),
  }
}
