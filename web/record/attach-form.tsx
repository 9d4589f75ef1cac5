import { type FormEvent, useRef, useState } from 'react'
import { ATTACHMENT_TYPES, MOST_ATTACHMENT_BYTES } from '#contract/attachments.ts'
import { type Holder, useAttach } from '../api/attachments.ts'
import { Button } from '../ui/button.tsx'
import { Field } from '../ui/field.tsx'
import { ErrorNote } from '../ui/state-note.tsx'
import { TOUCH, useMedia } from '../ui/use-media.ts'
import { fileFault } from './file-fault.ts'
import { sizeInWords } from './size-in-words.ts'

interface Props {
  readonly holder: Holder
  readonly of: string
}

/** Chooses a file, or takes a photo on a phone, and sends it with a note. */
export function AttachForm({ holder, of }: Props) {
  const [file, setFile] = useState<File | null>(null)
  const [note, setNote] = useState('')
  const { attach, sentShare } = useAttach(holder)
  const fault = file && fileFault(file)
  const choose = (chosen: File | null) => {
    attach.reset()
    setFile(chosen)
  }
  const submit = (event: FormEvent) => {
    event.preventDefault()
    if (!file || fault) return
    const onSuccess = () => {
      setFile(null)
      setNote('')
    }
    attach.mutate({ file, note: note.trim() }, { onSuccess })
  }
  return (
    <form className="stack" aria-label={`Add a photo or a report of ${of}`} onSubmit={submit}>
      <Choosing onChoose={choose} />
      {fault && <ErrorNote title="This file is not taken." error={fault} />}
      {file && !fault && (
        <>
          <p>
            Chosen: {file.name}, {sizeInWords(file.size)}
          </p>
          <Field label="Note on it" hint="What it shows, as “cracked bushing cover, A phase”.">
            {(control) => (
              <input
                {...control}
                className="input"
                maxLength={400}
                value={note}
                onChange={({ target }) => setNote(target.value)}
              />
            )}
          </Field>
          {attach.isPending && <Sending share={sentShare} name={file.name} />}
          {attach.error && (
            <ErrorNote
              title="It was not added; file and note are still here."
              error={attach.error}
            />
          )}
          <div className="row">
            <Button type="submit" look="main" disabled={attach.isPending}>
              {attach.isPending ? 'Sending…' : 'Add it'}
            </Button>
            <Button disabled={attach.isPending} onClick={() => choose(null)}>
              Not this one
            </Button>
          </div>
        </>
      )}
    </form>
  )
}

function Choosing({ onChoose }: { readonly onChoose: (file: File | null) => void }) {
  const hasCamera = useMedia(TOUCH)
  return (
    <div className="row">
      {hasCamera && (
        <FileButton
          label="Take a photo"
          accept="image/jpeg,image/png"
          fromCamera
          onChoose={onChoose}
        />
      )}
      <FileButton
        label={hasCamera ? 'Choose a file' : 'Add a photo or a report'}
        accept={ATTACHMENT_TYPES.join(',')}
        onChoose={onChoose}
      />
      <span className="soft small">
        JPEG, PNG, WebP or PDF, at most {sizeInWords(MOST_ATTACHMENT_BYTES)}. Place, time and device
        in a photo are left out when it is shown.
      </span>
    </div>
  )
}

interface FileButtonProps {
  readonly label: string
  readonly accept: string
  readonly fromCamera?: boolean
  readonly onChoose: (file: File | null) => void
}

/** A button in place of the browser's own file field, which cannot be read in every theme. */
function FileButton({ label, accept, fromCamera, onChoose }: FileButtonProps) {
  const ref = useRef<HTMLInputElement>(null)
  return (
    <>
      <Button onClick={() => ref.current?.click()}>{label}</Button>
      <input
        ref={ref}
        hidden
        type="file"
        accept={accept}
        capture={fromCamera ? 'environment' : undefined}
        aria-label={label}
        onChange={({ target }) => {
          onChoose(target.files?.[0] ?? null)
          // So that the same file can be chosen again.
          target.value = ''
        }}
      />
    </>
  )
}

function Sending({ share, name }: { readonly share: number; readonly name: string }) {
  return (
    <p>
      <progress
        className="attachment-progress"
        aria-label={`Sending ${name}`}
        max={1}
        value={share}
      />
      {share < 1 ? `${Math.round(share * 100)} % sent` : 'Sent; the server checks it…'}
    </p>
  )
}
