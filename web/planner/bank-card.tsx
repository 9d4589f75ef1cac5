import type { ProposedBank } from '#domain/siting/site-result.ts'
import { convergedCase } from '../state/case-solutions.ts'
import { useFeeder } from '../state/feeder.tsx'
import { distance, inWords, tapWords } from '../state/format.ts'
import { select, useSelection } from '../state/selection.ts'
import { useShownCaseId, useSolutions } from '../state/solutions.ts'
import { useTrial } from '../state/trial.ts'
import { showWorking } from '../state/working.ts'
import { Button } from '../ui/button.tsx'
import { Figure } from '../ui/figure.tsx'
import { BankBirds } from './bank-birds.tsx'
import { bankPlaces, nextPlace } from './bank-places.ts'
import { BankSettings } from './bank-settings.tsx'
import { ratingWorking } from './figure-workings.ts'
import type { OpenProposal } from './open-proposal.ts'
import { trialBankId } from './trial-banks.ts'
import { useTrialBanks } from './use-trial-banks.ts'

interface Props {
  readonly bank: ProposedBank
  readonly index: number
  readonly open: OpenProposal
}

/** One bank: where it stands, its size and taps, and the steps that move it along the line. */
export function BankCard({ bank, index, open }: Props) {
  const model = useFeeder()
  const { units } = useSelection()
  const { isMoved, putBack } = useTrialBanks()
  return (
    <div className="planner-card stack">
      <p>
        Bank at{' '}
        <Button look="plain" className="planner-inline" onClick={() => select({ pole: bank.pole })}>
          pole {bank.pole}
        </Button>
        , {inWords(distance(model.distanceM.get(bank.pole) ?? bank.distanceM, units))} from the
        source.{' '}
        <Figure
          value={`${bank.phases.length} × ${bank.ratingKva}`}
          unit="kVA"
          label="Size"
          onWorking={() => showWorking(ratingWorking(bank, open.request))}
        />
        , {bank.ratingA} A.
      </p>
      <BankSettings bank={bank} request={open.request} />
      <BankTaps index={index} />
      <MoveSteps bank={bank} index={index} />
      <div className="row">
        <Button onClick={() => select({ person: 'crew', pole: bank.pole, view: null })}>
          Show the crew this pole
        </Button>
      </div>
      {isMoved && (
        <div className="row">
          <span>Moved by hand; every figure here is computed live.</span>
          <Button onClick={putBack}>Put back as proposed</Button>
        </div>
      )}
      <BankBirds bank={bank} />
    </div>
  )
}

function MoveSteps({ bank, index }: Pick<Props, 'bank' | 'index'>) {
  const model = useFeeder()
  const { move } = useTrialBanks()
  const places = bankPlaces(model, bank.phases)
  const upstream = nextPlace(model, places, bank.pole, -1)
  const downstream = nextPlace(model, places, bank.pole, 1)
  return (
    <div className="row">
      <Button
        disabled={upstream === null}
        onClick={() => upstream !== null && move(index, upstream)}
      >
        ← Move toward the source
      </Button>
      <Button
        disabled={downstream === null}
        onClick={() => downstream !== null && move(index, downstream)}
      >
        Move onward →
      </Button>
    </div>
  )
}

function BankTaps({ index }: { readonly index: number }) {
  const { banks } = useTrial()
  const { data } = useSolutions(banks)
  const caseId = useShownCaseId()
  const solution = convergedCase(data, caseId)
  const state = solution?.regulators.find(({ id }) => id === trialBankId(index))
  if (!state) return null
  const taps = Object.entries(state.taps).map(([phase, tap]) => `${phase} ${tapWords(tap)}`)
  return (
    <p>
      Taps in this case: {taps.join(', ')}.
      {state.atLimit.length > 0 && ` At the end of its range on phase ${state.atLimit.join(', ')}.`}
    </p>
  )
}
