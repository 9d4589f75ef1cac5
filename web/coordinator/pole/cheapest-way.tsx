import { useMemo } from 'react'
import { cheapestMeasures } from '#domain/avian/measures/cheapest-measures.ts'
import type { MeasureFacts, MeasureSet } from '#domain/avian/measures/measure.ts'
import {
  COVERS_ARE_NO_INSULATION,
  measureCatalogue,
} from '#domain/avian/measures/measure-catalogue.ts'
import { possibleMeasures } from '#domain/avian/measures/possible-measures.ts'
import { HowSure } from '../../birds/how-sure.tsx'
import { measureInWords } from '../../birds/measure-words.ts'
import type { PoleBirds } from '../../birds/use-pole-birds.ts'
import { counted, usd } from '../../state/format.ts'
import { useSelection } from '../../state/selection.ts'
import { showWorking } from '../../state/working.ts'
import { Button } from '../../ui/button.tsx'
import { Figure } from '../../ui/figure.tsx'
import { setCostWorking } from './measure-working.ts'
import { RecordTrial } from './record-trial.tsx'
import type { MeasureTrial } from './trial-measures.ts'

interface Props {
  readonly birds: PoleBirds
  readonly trial: MeasureTrial
}

/** The cheapest set of measures that closes a pole, with alternatives, to be tried and recorded. */
export function CheapestWay({ birds, trial }: Props) {
  const { site, items, settings, assessment } = birds
  const sets = useMemo(() => cheapestMeasures(site, items, settings), [site, items, settings])
  const catalogue = useMemo(() => measureCatalogue(settings), [settings])
  if (!assessment.poleTop || (sets.length === 0 && assessment.pairs.length === 0)) return null
  const [cheapest, ...others] = sets
  return (
    <section className="stack" aria-label="Cheapest way to close">
      <h3>Cheapest way to close</h3>
      {!cheapest && <p>No measure in the catalogue closes what is open here.</p>}
      {cheapest && <SetCard set={cheapest} {...{ birds, trial, catalogue }} isFirst />}
      {others.length > 0 && (
        <details className="stack">
          <summary>{counted(others.length, 'alternative')}</summary>
          {others.map((set) => (
            <SetCard key={keyOf(set)} set={set} {...{ birds, trial, catalogue }} />
          ))}
        </details>
      )}
      <SingleMeasures birds={birds} trial={trial} catalogue={catalogue} />
      <RecordTrial birds={birds} trial={trial} catalogue={catalogue} />
      <p className="small bird-caution">{COVERS_ARE_NO_INSULATION}</p>
    </section>
  )
}

interface CardProps extends Props {
  readonly set: MeasureSet
  readonly catalogue: readonly MeasureFacts[]
  readonly isFirst?: boolean
}

function SetCard({ set, birds, trial, catalogue, isFirst = false }: CardProps) {
  const isTried = trial.uses.length === set.uses.length && trial.has(set.uses)
  const parts = birds.assessment.poleTop?.parts ?? []
  const { units } = useSelection()
  const limits = catalogue.filter(({ kind }) => set.uses.some((use) => use.kind === kind))
  return (
    <div className="measure-set stack">
      <ul>
        {set.uses.map((use) => (
          <li key={`${use.kind} ${use.partIds.join()}`}>{measureInWords(use, parts, units)}</li>
        ))}
      </ul>
      <p>
        <Figure
          value={usd(set.costUsd)}
          unit=""
          label="Cost"
          onWorking={() => showWorking(setCostWorking(set, catalogue))}
        />{' '}
        <HowSure sureness="assumption" source={limits.map(({ source }) => source).join(' ')} />
        {set.leftOpen.length > 0 && `; ${counted(set.leftOpen.length, 'pair')} would stay open`}
      </p>
      <details>
        <summary className="small">Limits, and what each takes away</summary>
        <Limits facts={limits} />
      </details>
      <div className="row">
        <Button
          look={isFirst && !isTried ? 'main' : undefined}
          isPressed={isTried}
          onClick={() => trial.set(isTried ? [] : set.uses)}
        >
          {isTried ? 'Tried on the drawing' : 'Try on the drawing'}
        </Button>
      </div>
    </div>
  )
}

function Limits({ facts }: { readonly facts: readonly MeasureFacts[] }) {
  return (
    <ul className="bird-facts small">
      {facts.map(({ kind, removes, limits, lifeYears, sureness, source }) => (
        <li key={kind}>
          <strong className="first-capital">{kind}.</strong> Takes away: {removes} {limits} Lasts
          about {lifeYears} years. <HowSure sureness={sureness} source={source} />
        </li>
      ))}
    </ul>
  )
}

function SingleMeasures({ birds, trial, catalogue }: Omit<CardProps, 'set'>) {
  const { site, assessment } = birds
  const { units } = useSelection()
  const top = assessment.poleTop
  const uses = useMemo(() => (top ? possibleMeasures(site, top) : []), [site, top])
  if (!top || uses.length === 0) return null
  return (
    <details>
      <summary>One measure at a time ({uses.length})</summary>
      <ul className="measure-rows">
        {uses.map((use) => (
          <li key={`${use.kind} ${use.partIds.join()}`} className="measure-row">
            <span>
              {measureInWords(use, top.parts, units)}
              <span className="soft">
                {' '}
                {usd(catalogue.find(({ kind }) => kind === use.kind)?.costUsd ?? 0)}
              </span>
            </span>
            <Button
              isPressed={trial.has([use])}
              aria-label={`Try ${measureInWords(use, top.parts, units)}`}
              onClick={() => trial.toggle(use)}
            >
              Try
            </Button>
          </li>
        ))}
      </ul>
    </details>
  )
}

const keyOf = ({ uses }: MeasureSet): string =>
  uses.map(({ kind, partIds }) => `${kind} ${partIds.join()}`).join(';')
