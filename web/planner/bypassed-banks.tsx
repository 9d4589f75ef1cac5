import { isBypassed } from '#domain/feeder/is-bypassed.ts'
import { showPlace } from '../state/camera.ts'
import { useFeeder } from '../state/feeder.tsx'
import { select } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'
import { TakenOutBy } from './taken-out-line.tsx'

/** Banks past which the line runs, said where voltages are read first; nothing where there is none. */
export function BypassedBanks() {
  const { feeder, poleById } = useFeeder()
  const banks = feeder.equipment.filter((item) => item.kind === 'regulator').filter(isBypassed)
  return banks.map((bank) => {
    const { id, name, pole } = bank
    const open = () => {
      select({ pole })
      const at = poleById.get(pole)?.at
      if (at) showPlace(at)
    }
    return (
      <p key={id}>
        The regulator bank at{' '}
        <Button look="plain" className="planner-inline" onClick={open}>
          pole {pole}
        </Button>{' '}
        ({name ?? id}) stands bypassed: it holds no voltage, and the figures here are without it.{' '}
        <TakenOutBy bank={bank} />
      </p>
    )
  })
}
