import type { Regulator } from '#domain/feeder/equipment.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'

/** Banks past which the line runs, in the order of the file. */
export function bypassedBanks({ equipment }: Feeder): Regulator[] {
  return equipment
    .filter((item) => item.kind === 'regulator')
    .filter(({ state }) => state === 'bypassed')
}
