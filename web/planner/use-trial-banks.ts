import { useMemo } from 'react'
import type { ProposedBank } from '#domain/siting/site-result.ts'
import { useFeeder } from '../state/feeder.tsx'
import { select, useSelection } from '../state/selection.ts'
import { banksAsMoved, movedText } from './moved-banks.ts'
import { useOpenProposal } from './open-proposal.ts'

const NONE: readonly ProposedBank[] = []

export interface TrialBanks {
  /** As they stand now, moved or not. */
  readonly banks: readonly ProposedBank[]
  readonly isMoved: boolean
  readonly move: (index: number, pole: string) => void
  readonly putBack: () => void
}

/** Banks of the open proposal with what was moved by hand. */
export function useTrialBanks(): TrialBanks {
  const model = useFeeder()
  const { moved } = useSelection()
  const proposed = useOpenProposal()?.proposal.banks ?? NONE
  const banks = useMemo(() => banksAsMoved(model, proposed, moved), [model, proposed, moved])
  const move = (index: number, pole: string) => {
    const poles = banks.map((bank, at) => (at === index ? pole : bank.pole))
    select({ moved: movedText(proposed, poles) })
  }
  return {
    banks,
    isMoved: banks.some(({ pole }, index) => pole !== proposed[index]?.pole),
    move,
    putBack: () => select({ moved: null }),
  }
}
