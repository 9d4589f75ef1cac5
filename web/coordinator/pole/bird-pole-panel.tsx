import type { ReactNode } from 'react'
import { pairInWords } from '#domain/avian/pole-top/pair-words.ts'
import { poleTopOf } from '#domain/avian/pole-top/pole-top-of.ts'
import { designSpecies } from '#domain/avian/species/shipped-species.ts'
import { useMay } from '../../api/account.ts'
import { PoleStateMark } from '../../birds/pole-state-mark.tsx'
import { PoleTopDrawing } from '../../birds/pole-top-drawing.tsx'
import { stateInWords } from '../../birds/state-in-words.ts'
import { type PoleBirds, usePoleBirds } from '../../birds/use-pole-birds.ts'
import { PoleJobs } from '../../jobs/pole-jobs.tsx'
import { Attachments } from '../../record/attachments.tsx'
import { useFeeder } from '../../state/feeder.tsx'
import { select, useSelection } from '../../state/selection.ts'
import { ArrivingTitle } from '../../ui/arriving-title.tsx'
import { Button } from '../../ui/button.tsx'
import { EmptyNote, ErrorNote, LoadingNote } from '../../ui/state-note.tsx'
import type { BirdRecord } from '../use-bird-record.ts'
import { BirdNeighbourhood } from './bird-neighbourhood.tsx'
import { CheapestWay } from './cheapest-way.tsx'
import { itemViewOf } from './item-view.ts'
import { PoleGrounds } from './pole-grounds.tsx'
import { PoleItems } from './pole-items.tsx'
import './pole.css'
import { PoleTopForm } from './pole-top-form.tsx'
import { showItemView } from './show-item-view.ts'
import { SpeciesTable } from './species-table.tsx'
import { useMeasureTrial } from './trial-measures.ts'

interface Props {
  readonly poleId: string
  readonly record: BirdRecord
}

/** One pole as the bird record knows it. */
export function BirdPolePanel({ poleId, record }: Props) {
  const { found, isLoading, error, retry } = usePoleBirds(poleId)
  return (
    <article className="stack" aria-label={`Pole ${poleId}`}>
      <Button onClick={() => select({ pole: null, view: null })}>Back to all poles</Button>
      <ArrivingTitle of={poleId}>Pole {poleId}</ArrivingTitle>
      {error && (
        <ErrorNote title="What is recorded here did not arrive" error={error} onRetry={retry} />
      )}
      {isLoading && <LoadingNote what="Fetching what is recorded of this pole…" />}
      {!found && !isLoading && !error && (
        <EmptyNote what={`This feeder has no surveyed pole ${poleId}.`} />
      )}
      {found && <Found key={poleId} birds={found} record={record} />}
    </article>
  )
}

function Found({ birds, record }: { readonly birds: PoleBirds; readonly record: BirdRecord }) {
  const { feeder } = useFeeder()
  const { site, settings, assessment, items } = birds
  const { pole } = site
  const trial = useMeasureTrial(birds)
  return (
    <>
      <Verdict birds={birds} />
      <PoleJobs pole={pole.id} />
      {(pole.framing || pole.location) && (
        <p className="soft first-capital">
          {[pole.framing, pole.location].filter(Boolean).join('; ')}
        </p>
      )}
      {assessment.poleTop && (
        <>
          {trial.uses.length > 0 && (
            <p className="trial-line">
              <strong>Trial</strong>: the drawing shows the pole with what you try, not as it
              stands. {trial.pairs.length} of {assessment.pairs.length} pairs left.
            </p>
          )}
          <PoleTopDrawing parts={trial.parts} pairs={trial.pairs} settings={settings} />
          <SpeciesTable results={assessment.bySpecies} settings={settings} />
        </>
      )}
      <CheapestWay birds={birds} trial={trial} />
      <PoleItems
        pole={pole.id}
        items={items}
        parts={poleTopOf(site)?.parts ?? []}
        settings={settings}
      />
      <Measuring birds={birds} />
      <PoleGrounds assessment={assessment} settings={settings} />
      <BirdNeighbourhood
        pole={pole}
        feeder={record.feeder}
        settings={settings}
        exposure={record.exposures.get(pole.id) ?? null}
      />
      <Attachments
        holder={{ feederId: feeder.header.id, attachedTo: 'pole', attachedToId: pole.id }}
        of={`pole ${pole.id}`}
      />
    </>
  )
}

/** State in a mark and in words, and the pair that is bridged most easily. */
function Verdict({ birds: { assessment, settings } }: { readonly birds: PoleBirds }) {
  const inInches = useSelection().units === 'us'
  const { name } = designSpecies(settings)
  const tightest = assessment.pairs[0]
  return (
    <div className="pole-verdict">
      <p className="pole-verdict-state">
        <PoleStateMark state={assessment.state} />
      </p>
      <p>{stateInWords(assessment, `the ${name}`)}</p>
      {tightest && <p>Tightest for the {pairInWords(tightest, name, inInches)}.</p>}
    </div>
  )
}

function Measuring({ birds }: { readonly birds: PoleBirds }) {
  const view = itemViewOf(useSelection().view)
  const mayMeasure = useMay('choose or measure a pole top')
  const poleId = birds.site.pole.id
  const isOpen = view?.open === 'measure' && view.pole === poleId
  const note: ReactNode = birds.choice
    ? 'Framing or dimensions of this pole were chosen by hand.'
    : 'The drawing follows from the record and from usual framings; nobody measured this pole.'
  return (
    <section className="stack" aria-label="Measure this pole">
      <h3>How the pole top is framed</h3>
      <p className="soft small">{note}</p>
      {isOpen && mayMeasure && <PoleTopForm birds={birds} onDone={() => showItemView(null)} />}
      {!isOpen && mayMeasure && (
        <div>
          <Button onClick={() => showItemView({ open: 'measure', pole: poleId })}>
            Measure this pole
          </Button>
        </div>
      )}
    </section>
  )
}
