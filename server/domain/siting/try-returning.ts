import { compileNetwork } from '#domain/electrical/compile-network.ts'
import type { Regulator } from '#domain/feeder/equipment.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { isBypassed } from '#domain/feeder/is-bypassed.ts'
import { beginStudy } from './begin-study.ts'
import { effectOf } from './effect.ts'
import type { BypassedBank, Effect } from './site-result.ts'
import { checkIn, type Hooks, type Study } from './study.ts'

/** Banks that hang there off the line. */
export function bypassedBanks({ equipment }: Pick<Feeder, 'equipment'>): Regulator[] {
  return equipment.filter((item): item is Regulator => isBypassed(item))
}

/** Each bank that stands bypassed, and what returning it alone, with its recorded settings, would do. */
export function tryReturning(study: Study, hooks: Hooks): BypassedBank[] {
  const banks = bypassedBanks(study.feeder)
  return banks.map((bank, index) => {
    checkIn(hooks, index + 1, banks.length, 'Trying to return bypassed banks')
    const after = effectWith(study, bank)
    return {
      id: bank.id,
      pole: bank.pole,
      words: inWords(study, bank, after),
      ...(after && { after }),
    }
  })
}

function effectWith({ cases, feeder, request }: Study, bank: Regulator): Effect | null {
  const equipment = feeder.equipment.map((item) =>
    item === bank ? { ...bank, state: 'in service' as const } : item,
  )
  const returned = { ...feeder, equipment }
  const compiled = compileNetwork(returned)
  if (compiled.status === 'rejected') return null
  const study = beginStudy(returned, compiled.network, cases, request)
  return 'status' in study ? null : effectOf(study, study.before)
}

function inWords(study: Study, bank: Regulator, after: Effect | null): string {
  const stands = `The bank at pole ${bank.pole} (${bank.name ?? bank.id}) stands bypassed, so it was taken as not regulating.`
  if (!after) {
    return `${stands} With it returned to service the line has no settled solution; look at its settings first.`
  }
  const what = study.judge.countsCustomers ? 'customers' : 'load points'
  const changes = study.cases.flatMap(({ id, name }, index) => {
    const was = study.before.cases[index]?.outside ?? 0
    const is = after.cases[id]?.customersOutside ?? 0
    return is === was ? [] : [`${is} instead of ${was} in ${name}`]
  })
  if (changes.length === 0) {
    return `${stands} Returning it alone, with its recorded settings, would leave as many ${what} outside as now.`
  }
  const others = changes.length < study.cases.length ? ', as many as now in the other cases' : ''
  const left = Object.values(after.cases).reduce((sum, effect) => sum + effect.customersOutside, 0)
  const first =
    left < study.before.outside ? ' Find out why it was bypassed before a bank is bought.' : ''
  return `${stands} Returning it alone, with its recorded settings, would leave ${what} outside: ${changes.join(', ')}${others}.${first}`
}
