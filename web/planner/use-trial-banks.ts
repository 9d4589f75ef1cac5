import { useMemo } from 'react'
import type { PlacesJudged } from '#domain/siting/judge-places.ts'
import type { ProposedBank } from '#domain/siting/site-result.ts'
import { useShared } from '../device/shared-value.ts'
import { useFeeder } from '../state/feeder.tsx'
import { select, useSelection } from '../state/selection.ts'
import { handOnBanks, isBankDragged } from './hand-on-banks.ts'
import { banksAsMoved, movedText } from './moved-banks.ts'
import { useOpenProposal } from './open-proposal.ts'
import { useJudgedPlaces } from './use-judged-places.ts'

const NONE: readonly ProposedBank[] = []

export interface TrialBanks {
  /** As they stand now, moved or not; until they are judged there, with the settings of before. */
  readonly banks: readonly ProposedBank[]
  readonly isMoved: boolean
  /** While true, figures follow the bank with the settings that it had when it was taken. */
  readonly isDragged: boolean
  /** Whether places that were chosen are still being judged, so that other settings may come. */
  readonly isJudging: boolean
  /** What was found where a person put them; null as long as it is not there, or none was moved. */
  readonly judged: PlacesJudged | null
  readonly error: Error | null
  readonly move: (index: number, pole: string) => void
  readonly putBack: () => void
}

/** Banks of the open proposal with what was moved by hand. */
export function useTrialBanks(): TrialBanks {
  const model = useFeeder()
  const { moved } = useSelection()
  const open = useOpenProposal()
  const proposed = open?.proposal.banks ?? NONE
  const hand = useShared(handOnBanks)
  const isDragged = useShared(isBankDragged)
  const present = moved !== null && hand?.proposed === proposed ? hand.banks : proposed
  const placed = useMemo(() => banksAsMoved(model, present, moved), [model, present, moved])
  const isMoved = placed.some(({ pole }, index) => pole !== proposed[index]?.pole)
  const request = open?.request
  const asked = useMemo(() => {
    if (!isMoved || isDragged || !request) return null
    return { request, places: placed.map(({ pole, span, phases }) => ({ pole, span, phases })) }
  }, [placed, isMoved, isDragged, request])
  const { data = null, error } = useJudgedPlaces(asked)
  const judged = isMoved ? data : null
  const banks = judged?.status === 'judged' ? judged.proposal.banks : placed
  const move = (index: number, pole: string) => {
    const poles = banks.map((bank, at) => (at === index ? pole : bank.pole))
    handOnBanks.set({ proposed, banks })
    select({ moved: movedText(proposed, poles) })
  }
  return {
    banks,
    isMoved,
    isDragged,
    isJudging: asked !== null && judged === null && error === null,
    judged,
    error: isMoved ? error : null,
    move,
    putBack: () => select({ moved: null }),
  }
}
