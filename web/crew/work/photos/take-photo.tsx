import { useRef, useState } from 'react'
import type { Job } from '#contract/jobs.ts'
import { wayTo } from '../../../jobs/places/bearing.ts'
import { Moment } from '../../../record/moment.tsx'
import { sizeInWords } from '../../../record/size-in-words.ts'
import { useFeeder } from '../../../state/feeder.tsx'
import { useSelection } from '../../../state/selection.ts'
import { Button } from '../../../ui/button.tsx'
import { Field } from '../../../ui/field.tsx'
import { enterPhoto } from '../field-job.ts'
import { InTheWay } from '../in-the-way.tsx'
import { whyNotKept } from '../why-not-kept.ts'
import { offPoleWords } from './off-pole-words.ts'
import { type PhotoFacts, photoFacts } from './photo-facts.ts'
import { photoFault } from './photo-fault.ts'
import { useBlobAddress } from './use-blob-address.ts'

interface Props {
  readonly job: Job
  readonly poleId: string
}

interface Chosen {
  readonly file: File
  readonly facts: PhotoFacts
  readonly offPoleM?: number
}

/** Takes or chooses a picture, says what it tells of place and time, and keeps it on the device. */
export function TakePhoto({ job, poleId }: Props) {
  const pole = useFeeder().poleById.get(poleId)
  const [chosen, setChosen] = useState<Chosen | null>(null)
  const [fault, setFault] = useState<string | null>(null)
  const choose = async (file: File | null) => {
    setChosen(null)
    const wrong = file && photoFault(file)
    setFault(wrong)
    if (!file || wrong) return
    const facts = await photoFacts(file)
    const { takenPosition } = facts
    const off = takenPosition && pole ? wayTo(pole.at, takenPosition).distanceM : undefined
    setChosen({ file, facts, ...(off !== undefined && { offPoleM: off }) })
  }
  const keep = async (what: string) => {
    if (!chosen) return
    const { file, facts, offPoleM } = chosen
    const photo = { jobId: job.id, feederId: job.feederId, pole: poleId, file, what }
    const off = offPoleM !== undefined && { offPoleM }
    const [problem] = await whyNotKept(enterPhoto({ ...photo, ...facts, ...off }))
    setFault(problem ?? null)
    if (problem === undefined) setChosen(null)
  }
  return (
    <div className="stack">
      <div className="work-pair">
        <PictureButton label="Take a photo" fromCamera onChoose={(file) => void choose(file)} />
        <PictureButton label="Choose a photo" onChoose={(file) => void choose(file)} />
      </div>
      {fault && <InTheWay sentences={[fault]} />}
      {chosen && <ChosenPhoto chosen={chosen} onKeep={keep} onDrop={() => setChosen(null)} />}
    </div>
  )
}

interface ButtonProps {
  readonly label: string
  readonly fromCamera?: boolean
  readonly onChoose: (file: File | null) => void
}

function PictureButton({ label, fromCamera = false, onChoose }: ButtonProps) {
  const ref = useRef<HTMLInputElement>(null)
  return (
    <>
      <Button onClick={() => ref.current?.click()}>{label}</Button>
      <input
        ref={ref}
        hidden
        type="file"
        accept="image/jpeg,image/png,image/webp"
        capture={fromCamera ? 'environment' : undefined}
        aria-label={label}
        onChange={({ target }) => {
          onChoose(target.files?.[0] ?? null)
          // So that the same picture can be chosen again.
          target.value = ''
        }}
      />
    </>
  )
}

interface ChosenProps {
  readonly chosen: Chosen
  readonly onKeep: (what: string) => Promise<void>
  readonly onDrop: () => void
}

function ChosenPhoto({ chosen: { file, facts, offPoleM }, onKeep, onDrop }: ChosenProps) {
  const { units } = useSelection()
  const address = useBlobAddress(file)
  const [what, setWhat] = useState('')
  const [isKeeping, setIsKeeping] = useState(false)
  return (
    <form
      className="stack"
      aria-label="This photo"
      onSubmit={(event) => {
        event.preventDefault()
        setIsKeeping(true)
        void onKeep(what.trim()).finally(() => setIsKeeping(false))
      }}
    >
      {address && <img className="photo-chosen" src={address} alt={`Chosen: ${file.name}`} />}
      <p>
        {file.name}, {sizeInWords(file.size)}. {offPoleWords(offPoleM, units)}
        {facts.takenAt && (
          <>
            {' '}
            Taken <Moment at={facts.takenAt} />.
          </>
        )}
      </p>
      <Field label="What it shows" hint="As “nameplate, B phase”.">
        {(control) => (
          <input
            {...control}
            className="input work-input"
            maxLength={400}
            value={what}
            onChange={({ target }) => setWhat(target.value)}
          />
        )}
      </Field>
      <Button type="submit" look="main" className="work-main" disabled={isKeeping}>
        {isKeeping ? 'Keeping it…' : 'Keep the photo'}
      </Button>
      <Button onClick={onDrop}>Not this one</Button>
    </form>
  )
}
