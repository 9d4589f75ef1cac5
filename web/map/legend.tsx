import { type ReactNode, useMemo } from 'react'
import { useLand } from '../api/feeders.ts'
import { useFeeder } from '../state/feeder.tsx'
import { useSelection } from '../state/selection.ts'
import { useTheme } from '../state/theme.ts'
import { Drawing } from '../ui/drawing.tsx'
import { PHONE, useMedia } from '../ui/use-media.ts'
import { ALL_EQUIPMENT_FROM_ZOOM, MAIN_EQUIPMENT_FROM_ZOOM } from './feeder/equipment-layers.tsx'
import { type EquipmentProperties, equipmentFeatures } from './feeder/feeder-features.ts'
import { SYMBOL_PATHS, SYMBOL_WORDS } from './feeder/symbols.ts'
import { LegendScale } from './legend-scale.tsx'
import { LegendWeights } from './legend-weights.tsx'
import { useMapStyle } from './use-map-style.ts'
import { useZoom } from './use-zoom.ts'
import { voltageScale } from './voltage-scale.ts'
import './legend.css'

/** What the map shows at this zoom, and nothing that it does not. */
export function Legend({ children }: { readonly children?: ReactNode }) {
  const { feeder } = useFeeder()
  const { phase } = useSelection()
  const isPhone = useMedia(PHONE)
  const scale = voltageScale(feeder.header.limits, useTheme())
  const shown = phase === 'worst' ? 'worst phase' : `phase ${phase}`
  return (
    <details className="legend" open={!isPhone}>
      <summary>Legend</summary>
      <div className="legend-body">
        <div>
          <p>Volts on the 120 V base, {shown}</p>
          <LegendScale scale={scale} />
        </div>
        <LegendWeights />
        {children}
        <LegendSymbols />
        <MapFaults />
        {feeder.header.coordinates === 'schematic' && (
          <p>
            Positions are a scheme:
            <br />
            distances on the map mean nothing.
          </p>
        )}
      </div>
    </details>
  )
}

/** Says what the map lacks, where a part of it could not be read. */
function MapFaults() {
  const { place } = useFeeder().feeder.header
  const style = useMapStyle()
  const land = useLand(place ?? null)
  const faults = [
    style?.fault ? `Your own map is missing. ${style.fault}` : '',
    land.error ? `The land is missing. ${land.error.message}` : '',
  ].filter(Boolean)
  return faults.map((fault) => (
    <p key={fault} role="alert">
      {fault}
    </p>
  ))
}

type LegendSymbol = keyof typeof SYMBOL_WORDS

function LegendSymbols() {
  const open = useFeeder()
  const zoom = useZoom()
  const items = useMemo(
    () => equipmentFeatures(open).features.map(({ properties }) => properties),
    [open],
  )
  const isSeen = ({ isMain }: EquipmentProperties) =>
    zoom >= (isMain ? MAIN_EQUIPMENT_FROM_ZOOM : ALL_EQUIPMENT_FROM_ZOOM)
  const names = [...new Set(items.filter(isSeen).map(({ symbol }) => symbol))].filter(
    (name): name is LegendSymbol => name in SYMBOL_WORDS,
  )
  if (names.length === 0) return <p className="soft">Zoom in for poles and equipment.</p>
  return (
    <details>
      <summary>Symbols</summary>
      <ul className="legend-rows">
        {names.map((name) => (
          <li key={name}>
            <Drawing path={SYMBOL_PATHS[name]} />
            {SYMBOL_WORDS[name]}
          </li>
        ))}
      </ul>
    </details>
  )
}
