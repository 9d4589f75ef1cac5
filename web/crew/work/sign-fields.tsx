import { useState } from 'react'
import type { Signer } from '#domain/jobs/step-sequence.ts'
import { useMe } from '../../api/account.ts'
import { Button } from '../../ui/button.tsx'
import { Field } from '../../ui/field.tsx'
import { forgetName, rememberName, useCrewNames } from './crew-names.ts'
import { signersNeeded } from './step-draft.ts'

interface Props {
  readonly signer: Signer
  readonly signedBy: readonly string[]
  readonly onSign: (signedBy: string[]) => void
}

const ASKS: Readonly<Record<Signer, string>> = {
  'one of the crew': 'Who did it and signs',
  'two of the crew': 'Two different people sign',
  'person in charge': 'The person in charge signs',
}

/** Names of the crew as buttons; the device remembers them. */
export function SignFields({ signer, signedBy, onSign }: Props) {
  const known = useCrewNames()
  const own = useMe().data?.name ?? ''
  const shown = [...new Set([...known, ...signedBy, own])].filter((name) => name !== '')
  const most = signersNeeded(signer)
  const toggle = (name: string) => {
    rememberName(name)
    if (signedBy.includes(name)) onSign(signedBy.filter((other) => other !== name))
    else onSign([...signedBy, name].slice(-most))
  }
  return (
    <fieldset className="work-choices">
      <legend>
        {ASKS[signer]}
        {most === 2 && `, ${signedBy.length} of 2`}
      </legend>
      {shown.map((name) => (
        <Button
          key={name}
          className="work-choice"
          isPressed={signedBy.includes(name)}
          onClick={() => toggle(name)}
        >
          {name}
        </Button>
      ))}
      <NameForm
        isOpenAtFirst={known.length === 0}
        onName={(name) => {
          rememberName(name)
          onSign([...signedBy.filter((other) => other !== name), name].slice(-most))
        }}
      />
      {known.length > 0 && <ForgetNames names={known} />}
    </fieldset>
  )
}

interface NameFormProps {
  readonly isOpenAtFirst: boolean
  readonly onName: (name: string) => void
}

function NameForm({ isOpenAtFirst, onName }: NameFormProps) {
  const [isOpen, setIsOpen] = useState(isOpenAtFirst)
  const [name, setName] = useState('')
  if (!isOpen) return <Button onClick={() => setIsOpen(true)}>Another name</Button>
  const add = () => {
    const typed = name.trim().replace(/\s+/g, ' ')
    if (typed === '') return
    onName(typed)
    setName('')
    setIsOpen(false)
  }
  return (
    <div className="work-name">
      <Field label="Name of somebody of the crew">
        {(control) => (
          <input
            {...control}
            className="input work-input"
            autoComplete="off"
            maxLength={120}
            value={name}
            onChange={({ target }) => setName(target.value)}
            onKeyDown={(event) => {
              if (event.key !== 'Enter') return
              event.preventDefault()
              add()
            }}
          />
        )}
      </Field>
      <Button onClick={add}>Add the name</Button>
    </div>
  )
}

function ForgetNames({ names }: { readonly names: readonly string[] }) {
  return (
    <details className="work-fold">
      <summary>Take a name off this device</summary>
      <div className="row">
        {names.map((name) => (
          <Button key={name} onClick={() => forgetName(name)}>
            Forget {name}
          </Button>
        ))}
      </div>
    </details>
  )
}
