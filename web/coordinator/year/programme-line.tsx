import type { Programme } from '#domain/avian/programme/programme.ts'
import { counted, usd } from '../../state/format.ts'
import { showWorking } from '../../state/working.ts'
import { Button } from '../../ui/button.tsx'
import { percent, shareOf } from './curve-point.ts'
import { programmeWorking } from './programme-working.ts'

/** What a programme comes to, in one sentence. */
export function ProgrammeLine({ programme }: { readonly programme: Programme }) {
  const { poles, rounds, costUsd, reduction, reductionPossible, request } = programme
  return (
    <p>
      <strong>
        {counted(poles.length, 'pole')} in {counted(rounds.length, 'round')} for {usd(costUsd)}
      </strong>{' '}
      of {usd(request.budgetUsd)}: {percent(shareOf(reduction, reductionPossible))} of what could be
      taken away.{' '}
      <Button look="plain" onClick={() => showWorking(programmeWorking(programme))}>
        Show the working
      </Button>
    </p>
  )
}
