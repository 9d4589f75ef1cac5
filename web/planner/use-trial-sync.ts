import { useEffect } from 'react'
import { endTrial, tryBanks } from '../state/trial.ts'
import { regulatorOfBank } from './trial-banks.ts'
import { useTrialBanks } from './use-trial-banks.ts'

/** Puts the banks of the open proposal on trial, so that map and profile show the line with them. */
export function useTrialSync(): void {
  const { banks } = useTrialBanks()
  useEffect(() => {
    if (banks.length === 0) endTrial()
    else tryBanks(banks.map(regulatorOfBank))
  }, [banks])
  useEffect(() => endTrial, [])
}
