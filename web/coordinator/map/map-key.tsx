import type { ReactNode } from 'react'
import { dayInWords } from '#domain/avian/nests/calendar-days.ts'
import { useMapColours } from '../../map/map-colours.ts'
import { useZoom } from '../../map/use-zoom.ts'
import { listedPoles } from '../list/listed-poles.ts'
import { useSeasonDay } from '../season-day.ts'
import { type BirdRecord, useBirdRecord } from '../use-bird-record.ts'
import { usePlannedRound } from '../use-planned-round.ts'
import { ITEMS_FROM_ZOOM } from './map-marks.tsx'
import { MAP_SYMBOLS, type SymbolName, symbolOfState } from './map-symbols.ts'
import { type ShownLayers, showLayer, useShownLayers } from './shown-layers.ts'
import { STATE_ROWS } from './state-rows.ts'

/** Rows of the legend for what this desk draws; each layer can be switched off. */
export function MapKey() {
  const record = useBirdRecord()
  const { feeder } = record
  const round = usePlannedRound(feeder.header.id)
  const day = dayInWords(useSeasonDay())
  return (
    <details className="map-key" open>
      <summary>Birds</summary>
      <StateKey record={record} />
      <ExposureKey />
      <ItemKey record={record} />
      {feeder.nests.length > 0 && (
        <KeyLayer layer="nests" name="Nests and their buffers">
          <KeyRow symbol="nest-in-use">in use</KeyRow>
          <KeyRow symbol="nest-not-in-use">not in use, or use unknown</KeyRow>
          <li>Full ring, tinted: in season on {day}</li>
          <li>Dashed ring: out of season on {day}</li>
        </KeyLayer>
      )}
      {feeder.incidents.length > 0 && (
        <KeyLayer layer="finds" name="Finds">
          <KeyRow symbol="incident-electrocution">electrocuted, confirmed or probable</KeyRow>
          <KeyRow symbol="incident-other">another or unknown cause</KeyRow>
        </KeyLayer>
      )}
      {feeder.habitat.length > 0 && (
        <KeyLayer layer="habitat" name="Habitat">
          <li>Tint with a dotted edge</li>
        </KeyLayer>
      )}
      {round && (
        <KeyLayer layer="round" name="Planned round">
          <li>Ring: pole of {round.name}; 2.3 is the third stop of the second round</li>
          <li>Dotted line: straight from stop to stop</li>
        </KeyLayer>
      )}
    </details>
  )
}

interface LayerProps {
  readonly layer: keyof ShownLayers
  readonly name: string
  readonly children: ReactNode
}

function KeyLayer({ layer, name, children }: LayerProps) {
  const isShown = useShownLayers()[layer]
  return (
    <div>
      <label className="map-key-switch">
        <input
          type="checkbox"
          checked={isShown}
          onChange={({ target }) => showLayer(layer, target.checked)}
        />
        {name}
      </label>
      {isShown && <ul>{children}</ul>}
    </div>
  )
}

/** Only states that occur are drawn, and only they are explained. */
function StateKey({ record }: { readonly record: BirdRecord }) {
  const states = new Set(listedPoles(record).map(({ assessment }) => assessment?.state))
  return (
    <KeyLayer layer="poles" name="Poles by state">
      {STATE_ROWS.filter(({ state }) => states.has(state)).map(({ state, words }) => (
        <KeyRow key={state} symbol={symbolOfState(state)}>
          {words}
        </KeyRow>
      ))}
    </KeyLayer>
  )
}

function ExposureKey() {
  const { shadeWeak, shadeStrong } = useMapColours()
  return (
    <KeyLayer layer="exposure" name="Exposure, by judgement">
      <li>
        <span
          className="key-band"
          style={{ background: `linear-gradient(to right, ${shadeWeak}, ${shadeStrong})` }}
        />
        birds unlikely to likely
      </li>
    </KeyLayer>
  )
}

const ITEM_ROWS: readonly (readonly [string, SymbolName, string])[] = [
  ['planned', 'item-planned', 'item planned'],
  ['on', 'item-on', 'item on the pole'],
  ['failed', 'item-failed', 'item failed'],
  ['removed', 'item-removed', 'item taken off'],
]

function ItemKey({ record: { items } }: { readonly record: BirdRecord }) {
  const zoom = useZoom()
  if (zoom < ITEMS_FROM_ZOOM || items.length === 0) return null
  return (
    <KeyLayer layer="items" name="Items, beside their pole">
      {ITEM_ROWS.filter(([state]) => items.some((item) => item.state === state)).map(
        ([state, symbol, words]) => (
          <KeyRow key={state} symbol={symbol}>
            {words}
          </KeyRow>
        ),
      )}
    </KeyLayer>
  )
}

interface RowProps {
  readonly symbol: SymbolName
  readonly children: ReactNode
}

function KeyRow({ symbol, children }: RowProps) {
  const { outline, fill } = MAP_SYMBOLS[symbol]
  return (
    <li>
      <svg
        className={`key-symbol key-${symbol}`}
        viewBox="0 0 24 24"
        width="16"
        height="16"
        aria-hidden="true"
      >
        {fill && <path d={fill} fill="currentcolor" />}
        <path d={outline} fill="none" stroke="currentcolor" strokeWidth="2" />
      </svg>
      <span>{children}</span>
    </li>
  )
}
