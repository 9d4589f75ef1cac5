import { type FormEvent, useState } from 'react'
import type { SecondFactorStart } from '#contract/account.ts'
import { useSecondFactor } from '../api/account.ts'
import { Button } from '../ui/button.tsx'
import { Field } from '../ui/field.tsx'
import { QrDrawing } from '../ui/qr-drawing.tsx'
import { ErrorNote } from '../ui/state-note.tsx'

interface Props {
  readonly start: SecondFactorStart
  readonly onDone: () => void
}

/** Code to scan, key to type, codes to keep, then the first code as proof that it works. */
export function SecondFactorSetUp({ start, onDone }: Props) {
  const { confirm } = useSecondFactor()
  const [code, setCode] = useState('')
  const plain = code.replaceAll(/\s/g, '')
  const submit = (event: FormEvent) => {
    event.preventDefault()
    confirm.mutate(plain, { onSuccess: onDone })
  }
  return (
    <form className="stack" aria-label="Set up an authenticator" noValidate onSubmit={submit}>
      <p>1. Scan this with your authenticator, or type the key into it.</p>
      <div className="account-scan">
        <QrDrawing
          text={start.uri}
          label="QR code for your authenticator; the key beside it says the same"
        />
        <p>
          Key
          <br />
          <code className="account-secret">{keyInGroups(start.uri)}</code>
        </p>
      </div>
      <p>
        2. Keep these codes somewhere safe. Each stands in for the authenticator once; they are not
        shown again.
      </p>
      <ul className="account-codes" aria-label={`Backup codes: ${start.backupCodes.length}`}>
        {start.backupCodes.map((backup) => (
          <li key={backup}>
            <code>{backup}</code>
          </li>
        ))}
      </ul>
      <Field label="3. The code that it shows now" hint="Six digits; changes every half minute.">
        {(control) => (
          <input
            className="input account-code"
            autoComplete="one-time-code"
            inputMode="numeric"
            value={code}
            onChange={({ target }) => setCode(target.value)}
            {...control}
          />
        )}
      </Field>
      {confirm.isError && <ErrorNote title="Not turned on" error={confirm.error} />}
      <div className="row">
        <Button type="submit" look="main" disabled={confirm.isPending || plain.length < 6}>
          {confirm.isPending ? 'Turning on…' : 'Turn the second factor on'}
        </Button>
        <Button onClick={onDone}>Give up</Button>
      </div>
    </form>
  )
}

/** The key of an otpauth address in groups of four, as it is read off and typed. */
function keyInGroups(uri: string): string {
  const key = new URL(uri).searchParams.get('secret') ?? ''
  return key.match(/.{1,4}/g)?.join(' ') ?? ''
}
