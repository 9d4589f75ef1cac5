import { useMemo } from 'react'
import { convergedCase } from '../../state/case-solutions.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { useSelection } from '../../state/selection.ts'
import { useShown, useShownCaseId } from '../../state/solutions.ts'
import { useTheme } from '../../state/theme.ts'
import { voltageScale } from '../voltage-scale.ts'
import { EquipmentLayers } from './equipment-layers.tsx'
import { PoleLayers } from './pole-layers.tsx'
import { PoleMarks } from './pole-marks.tsx'
import { SpanLayers } from './span-layers.tsx'
import { useFeatureStates } from './use-feature-states.ts'
import { useFeederPointer } from './use-feeder-pointer.ts'
import { useSymbolImages } from './use-symbol-images.ts'
import { voltageStates } from './voltage-states.ts'
import { WorstVoltage } from './worst-voltage.tsx'

/** The open feeder on the map, coloured by the voltages that are shown. */
export function FeederLayers() {
  const open = useFeeder()
  const { phase } = useSelection()
  const theme = useTheme()
  const solution = convergedCase(useShown().data, useShownCaseId())
  const scale = useMemo(
    () => voltageScale(open.feeder.header.limits, theme),
    [open.feeder.header.limits, theme],
  )
  const states = useMemo(
    () => voltageStates(open, solution, phase, scale),
    [open, solution, phase, scale],
  )
  useFeatureStates('feeder-spans', states.spans)
  useFeatureStates('feeder-poles', states.poles)
  useFeederPointer()
  const hasSymbols = useSymbolImages()
  return (
    <>
      <SpanLayers scale={scale} />
      {hasSymbols && <PoleLayers />}
      {hasSymbols && <EquipmentLayers />}
      <WorstVoltage solution={solution} />
      <PoleMarks />
    </>
  )
}
