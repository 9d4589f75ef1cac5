import { scale } from '@observablehq/plot'
import { useMemo } from 'react'
import { convergedCase } from '../../state/case-solutions.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { mainPath } from '../../state/main-path.ts'
import { useBefore, useShown, useShownCaseId } from '../../state/solutions.ts'
import { shownBanks, useTrial } from '../../state/trial.ts'
import type { Room } from '../../ui/use-room.ts'
import { type ProfileSegment, profileSegments, voltsRange } from './profile-lines.ts'

/** Pixels around the drawing for its words. */
export const MARGIN = { top: 10, right: 34, bottom: 22, left: 44 } as const

export interface Profile {
  readonly segments: readonly ProfileSegment[]
  /** The main line without the banks on trial; empty where none is. */
  readonly ghost: readonly ProfileSegment[]
  readonly mainPoles: readonly string[]
  readonly xOf: (distanceM: number) => number
  readonly yOf: (volts120: number) => number
  readonly reachM: number
  readonly range: readonly [number, number]
}

/** All that the strip draws; null until the shown case has voltages. */
export function useProfile({ widthPx, heightPx }: Room): Profile | null {
  const open = useFeeder()
  const caseId = useShownCaseId()
  const shown = convergedCase(useShown().data, caseId)
  const before = convergedCase(useBefore().data, caseId)
  const hasTrial = shownBanks(useTrial()).length > 0
  const mainPoles = useMemo(() => mainPath(open), [open])
  return useMemo(() => {
    if (!shown || widthPx === 0 || heightPx === 0) return null
    const segments = profileSegments(open, shown, mainPoles)
    const ghost =
      hasTrial && before
        ? profileSegments(open, before, mainPoles).filter(({ isMain }) => isMain)
        : []
    const range = voltsRange([...segments, ...ghost], open.feeder.header.limits)
    const reachM = Math.max(1, ...open.trace.spans.map(({ distanceM }) => distanceM))
    const x = scale({ x: { domain: [0, reachM], range: [MARGIN.left, widthPx - MARGIN.right] } })
    const y = scale({ y: { domain: [...range], range: [heightPx - MARGIN.bottom, MARGIN.top] } })
    return { segments, ghost, mainPoles, xOf: x.apply, yOf: y.apply, reachM, range }
  }, [open, shown, before, hasTrial, mainPoles, widthPx, heightPx])
}
