import { type ChangeEvent, useEffect, useId, useMemo, useState } from 'react'
import { useFeederList } from '../../api/feeders.ts'
import { select } from '../../state/selection.ts'
import { Button } from '../../ui/button.tsx'
import { List, ListRow } from '../../ui/list.tsx'
import type { SearchedFeeder } from '../crew-search.ts'
import { viewText } from '../crew-view.ts'
import { CameraView } from './camera-view.tsx'
import { type LabelLeads, labelLeads } from './label-leads.ts'
import { type LabelMeaning, readLabel } from './label-text.ts'
import { readPhoto } from './read-label-image.ts'
import './scan.css'

interface Props {
  readonly feeders: readonly SearchedFeeder[]
}

/** Opens what a QR label names: by the camera, or from a photo of the label. */
export function ScanLabel({ feeders }: Props) {
  const [isScanning, setIsScanning] = useState(false)
  const [meant, setMeant] = useState<LabelMeaning | null>(null)
  const listed = useFeederList().data
  // A feeder that arrives later may be the one that the label is of.
  const leads = useMemo(
    () => meant && labelLeads(meant, feeders, listed ?? []),
    [meant, feeders, listed],
  )
  useEffect(() => {
    if (leads && openLed(leads)) setMeant(null)
  }, [leads])
  const take = (text: string) => {
    setIsScanning(false)
    setMeant(readLabel(text))
  }
  return (
    <section className="stack" aria-label="Scan a label">
      {isScanning ? (
        <CameraView onText={take} onStop={() => setIsScanning(false)} />
      ) : (
        <div className="row">
          <Button
            onClick={() => {
              setMeant(null)
              setIsScanning(true)
            }}
          >
            Scan a label
          </Button>
          <FromPhoto onText={take} onNothing={(words) => setMeant({ kind: 'other', words })} />
        </div>
      )}
      {leads && <Led leads={leads} />}
    </section>
  )
}

interface PhotoProps {
  readonly onText: (text: string) => void
  readonly onNothing: (words: string) => void
}

function FromPhoto({ onText, onNothing }: PhotoProps) {
  const id = useId()
  const choose = async ({ target }: ChangeEvent<HTMLInputElement>) => {
    const [file] = target.files ?? []
    if (!file) return
    onNothing(`Looking for a code in ${file.name}…`)
    const text = await readPhoto(file).catch(() => null)
    target.value = ''
    if (text !== null) onText(text)
    else {
      onNothing(
        `No QR code could be read in ${file.name}. Take it again from nearer and without glare, or type the id.`,
      )
    }
  }
  return (
    <>
      <label className="button scan-file" htmlFor={id}>
        From a photo
      </label>
      <input
        id={id}
        className="visually-hidden"
        type="file"
        accept="image/*"
        onChange={(event) => void choose(event)}
      />
    </>
  )
}

function Led({ leads }: { readonly leads: LabelLeads }) {
  if (leads.to === 'nothing') {
    return (
      <p className="state-note" role="status">
        {leads.words}
      </p>
    )
  }
  if (leads.to !== 'choice') return null
  const { poleId, among } = leads
  return (
    <div className="state-note">
      <span role="status">
        The label says {poleId}. More than one feeder has such a pole: choose.
      </span>
      <List label={`Feeders with a pole ${poleId}`}>
        {among.map(({ id, name }) => (
          <ListRow key={id} onChoose={() => openLed({ to: 'pole', poleId, feederId: id })}>
            {name}
          </ListRow>
        ))}
      </List>
    </div>
  )
}

/** Opens the pole or the job, where the label leads to one; tells whether it did. */
function openLed(leads: LabelLeads): boolean {
  if (leads.to === 'pole') {
    const view = viewText({ part: 'pole finder' })
    select({ feeder: leads.feederId, pole: leads.poleId, view })
    return true
  }
  if (leads.to !== 'job') return false
  const { feederId, jobId } = leads
  const view = viewText({ part: 'job', jobId })
  select({ ...(feederId !== null && { feeder: feederId }), view, pole: null })
  return true
}
