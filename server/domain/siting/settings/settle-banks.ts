import { sizeBank } from '../bank-sizing.ts'
import { type Examined, examinePlacement } from '../examine-placement.ts'
import type { Study } from '../study.ts'
import { type ChosenSettings, setBank, workOutSettings } from './work-out-settings.ts'

/** A placement with the settings of its banks, and how they were chosen; by bank. */
export interface Settled {
  readonly examined: Examined
  /** Null where the settings were not worked out. */
  readonly settings: readonly (ChosenSettings | null)[]
}

/** Larger currents may ask for a larger unit, whose current transformer R and X then go by. */
const MOST_UNITS_TRIED = 2

/**
 * The benches must have `plain` solved. Works the settings of a placement's banks out, the source side first, each with the others as set
 * so far, and runs the placement with them. Stays with plain settings where the request says so,
 * where positions are searched, and where the worked-out ones do not keep what they promised.
 */
export function settleBanks(study: Study, plain: Examined, onTried: () => void): Settled {
  const asIs: Settled = { examined: plain, settings: plain.banks.map(() => null) }
  if (study.request.compensation === 'none' || study.request.taps === 'search') return asIs
  let ctPrimariesA = ctPrimariesOf(study, plain)
  for (let unit = 0; unit < MOST_UNITS_TRIED; unit += 1) {
    const settings = settingsInTurn(study, plain, ctPrimariesA, unit === 0, onTried)
    const isPlain = settings.every((each) => each === null || each.chosen === each.plain)
    if (isPlain) return { examined: plain, settings }
    const banks = plain.banks.map((bank, at) => {
      const found = settings[at]?.chosen.candidate.settings
      return found ? setBank(bank, found, ctPrimariesA[at] ?? 1) : bank
    })
    const examined = examinePlacement(study, plain.sites, banks)
    if (!examined || examined.trial.outside > plain.trial.outside) return asIs
    const neededA = ctPrimariesOf(study, examined)
    if (neededA.every((amps, at) => amps === ctPrimariesA[at])) return { examined, settings }
    ctPrimariesA = neededA
  }
  return asIs
}

function ctPrimariesOf({ feeder, request }: Study, { reports, sites }: Examined): number[] {
  return sites.map((site, at) => {
    const size = sizeBank(site, reports[at] ?? [], request, feeder.header.growthPctPerYear)
    return size.ctPrimaryA
  })
}

function settingsInTurn(
  study: Study,
  plain: Examined,
  ctPrimariesA: readonly number[],
  isSolved: boolean,
  onTried: () => void,
): (ChosenSettings | null)[] {
  const settings: (ChosenSettings | null)[] = []
  const set = [...plain.banks]
  plain.banks.forEach((bank, index) => {
    const ctPrimaryA = ctPrimariesA[index] ?? 1
    const solved = isSolved && index === 0 ? plain : null
    const found = workOutSettings({ study, banks: set, index, ctPrimaryA, solved }, onTried)
    settings.push(found)
    if (found) set[index] = setBank(bank, found.chosen.candidate.settings, ctPrimaryA)
  })
  return settings
}
