import { useEffect } from 'react'
import { endTrial, tryBanks } from '../state/trial.ts'
import { regulatorOfBank } from './trial-banks.ts'
import { useTrialBanks } from './use-trial-banks.ts'

/**
 * Puts the banks of the open proposal on trial, so that map and profile show the line with them.
 * While a place is being judged the figures of before stay, so that they change once.
 */
export function useTrialSync(): void {
  const { banks, isJudging } = useTrialBanks()
  useEffect(() => {
    if (banks.length === 0) endTrial()
    else if (!isJudging) tryBanks(banks.map(regulatorOfBank))
  }, [banks, isJudging])
  useEffect(() => endTrial, [])
}
