import { PHASES } from '#domain/units/phases.ts'
import type { Regulator } from '../feeder/equipment.ts'
import type { Feeder } from '../feeder/feeder.ts'
import type { Finding } from '../feeder/finding.ts'
import { isBypassed } from '../feeder/is-bypassed.ts'
import type { Report } from './finding-reporter.ts'

/** Banks past which the line runs, and units among them that do not stand at neutral. */
export function checkBypassedBanks({ equipment }: Feeder, report: Report): Finding[] {
  return equipment
    .filter((item) => item.kind === 'regulator')
    .filter(isBypassed)
    .flatMap((bank) => [bypassedNotice(bank, report), ...offNeutral(bank, report)])
}

function bypassedNotice({ id, pole }: Regulator, report: Report): Finding {
  return report(
    'notice',
    'bank-bypassed',
    'equipment',
    id,
    'It stands bypassed: the line runs past it, and it holds no voltage.',
    'Nothing to do while it is out of service; if it is not, correct its state.',
    pole,
  )
}

/** Units are at neutral before a bypass is closed over them: NAVFAC MO-201, 3.3.8. */
function offNeutral(bank: Regulator, report: Report): Finding[] {
  const off = PHASES.filter((phase) => bank.phases.includes(phase) && bank[`tap${phase}`] !== 0)
  if (off.length === 0) return []
  const positions = off.map((phase) => `${phase} at ${signed(bank[`tap${phase}`])}`).join(', ')
  return [
    report(
      'warning',
      'bypassed-off-neutral',
      'equipment',
      bank.id,
      `It stands bypassed with ${positions}; a unit is brought to neutral before its bypass is closed.`,
      `Set ${off.map((phase) => `tap_${phase.toLowerCase()}`).join(', ')} to 0 if the record is late. If a unit really stands so, qualified people look at it, by the utility’s own rules, before a switch of it is moved.`,
      bank.pole,
    ),
  ]
}

function signed(tap: number): string {
  return tap > 0 ? `+${tap}` : `−${-tap}`
}
