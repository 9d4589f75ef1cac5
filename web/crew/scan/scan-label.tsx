import { type ChangeEvent, useId, useState } from 'react'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { useFeederList } from '../../api/feeders.ts'
import { select } from '../../state/selection.ts'
import { Button } from '../../ui/button.tsx'
import { List, ListRow } from '../../ui/list.tsx'
import { viewText } from '../crew-view.ts'
import { CameraView } from './camera-view.tsx'
import { type LabelMeaning, readLabel } from './label-text.ts'
import { readPhoto } from './read-label-image.ts'
import './scan.css'

interface Props {
  readonly feeders: readonly Feeder[]
}

interface Outcome {
  readonly words: string
  /** Feeders that have the pole of a label that names none. */
  readonly among?: { readonly poleId: string; readonly feeders: readonly Feeder['header'][] }
}

/** Opens what a QR label names: by the camera, or from a photo of the label. */
export function ScanLabel({ feeders }: Props) {
  const [isScanning, setIsScanning] = useState(false)
  const [outcome, setOutcome] = useState<Outcome | null>(null)
  const known = useFeederList().data
  const fileId = useId()

  const take = (text: string) => {
    setIsScanning(false)
    setOutcome(openMeant(readLabel(text), feeders, known ?? []))
  }
  const choosePhoto = async ({ target }: ChangeEvent<HTMLInputElement>) => {
    const [file] = target.files ?? []
    if (!file) return
    setOutcome({ words: `Looking for a code in ${file.name}…` })
    const text = await readPhoto(file).catch(() => null)
    target.value = ''
    if (text !== null) take(text)
    else {
      setOutcome({
        words: `No QR code could be read in ${file.name}. Take it again from nearer and without glare, or type the id.`,
      })
    }
  }
  return (
    <section className="stack" aria-label="Scan a label">
      {isScanning ? (
        <CameraView onText={take} onStop={() => setIsScanning(false)} />
      ) : (
        <div className="row">
          <Button
            onClick={() => {
              setOutcome(null)
              setIsScanning(true)
            }}
          >
            Scan a label
          </Button>
          <label className="button scan-file" htmlFor={fileId}>
            From a photo
          </label>
          <input
            id={fileId}
            className="visually-hidden"
            type="file"
            accept="image/*"
            onChange={(event) => void choosePhoto(event)}
          />
        </div>
      )}
      {outcome && (
        <div className="state-note" role="status">
          <span>{outcome.words}</span>
          {outcome.among && <Among {...outcome.among} />}
        </div>
      )}
    </section>
  )
}

function Among({ poleId, feeders }: NonNullable<Outcome['among']>) {
  return (
    <List label={`Feeders with a pole ${poleId}`}>
      {feeders.map(({ id, name }) => (
        <ListRow key={id} onChoose={() => openPole(id, poleId)}>
          {name}
        </ListRow>
      ))}
    </List>
  )
}

function openPole(feeder: string, pole: string): void {
  select({ feeder, pole, view: viewText({ part: 'pole finder' }) })
}

/** Opens what is meant; says what it was, or why it cannot be opened here. */
function openMeant(
  meant: LabelMeaning,
  feeders: readonly Feeder[],
  known: readonly { readonly id: string }[],
): Outcome | null {
  if (meant.kind === 'other') return { words: meant.words }
  const { feederId } = meant
  if (
    feederId !== null &&
    ![...known, ...feeders.map(({ header }) => header)].some(({ id }) => id === feederId)
  ) {
    return { words: `The label is of feeder ${feederId}, which is not here.` }
  }
  if (meant.kind === 'job') {
    const view = viewText({ part: 'job', jobId: meant.jobId })
    select({ ...(feederId !== null && { feeder: feederId }), view, pole: null })
    return null
  }
  const { poleId } = meant
  if (feederId !== null) {
    openPole(feederId, poleId)
    return null
  }
  const having = feeders
    .filter(({ poles }) => poles.some(({ id }) => id === poleId))
    .map(({ header }) => header)
  const [only] = having
  if (!only)
    return { words: `The label says ${poleId}. No feeder that this device knows has such a pole.` }
  if (having.length > 1) {
    return {
      words: `The label says ${poleId}. More than one feeder has such a pole: choose.`,
      among: { poleId, feeders: having },
    }
  }
  openPole(only.id, poleId)
  return null
}
