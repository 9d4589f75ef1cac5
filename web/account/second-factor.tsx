import { type FormEvent, useState } from 'react'
import type { SecondFactorStart } from '#contract/account.ts'
import { useSecondFactor } from '../api/account.ts'
import { Button } from '../ui/button.tsx'
import { ErrorNote } from '../ui/state-note.tsx'
import { CurrentPassword } from './current-password.tsx'
import { SecondFactorSetUp } from './second-factor-set-up.tsx'

type Step = 'closed' | 'password' | SecondFactorStart

/** A code of an authenticator beside the password (RFC 6238): set up, in use, given up. */
export function SecondFactor({ isOn }: { readonly isOn: boolean }) {
  const [step, setStep] = useState<Step>('closed')
  const { start, remove } = useSecondFactor()
  const close = () => setStep('closed')
  return (
    <section className="stack" aria-labelledby="second-factor">
      <h3 id="second-factor">Second factor</h3>
      <p>
        {isOn
          ? 'On: signing in asks for a code of your authenticator after the password.'
          : 'Off. With it, a stolen password alone opens nothing.'}
      </p>
      {step === 'closed' && (
        <div className="row">
          <Button onClick={() => setStep('password')}>
            {isOn ? 'Turn it off…' : 'Set up an authenticator…'}
          </Button>
        </div>
      )}
      {step === 'password' && (
        <PasswordStep
          words={isOn ? 'Turn it off' : 'Go on'}
          isBusy={start.isPending || remove.isPending}
          error={start.error ?? remove.error}
          onPassword={(password) =>
            isOn
              ? remove.mutate(password, { onSuccess: close })
              : start.mutate(password, { onSuccess: setStep })
          }
          onGiveUp={close}
        />
      )}
      {typeof step === 'object' && <SecondFactorSetUp start={step} onDone={close} />}
    </section>
  )
}

interface StepProps {
  readonly words: string
  readonly isBusy: boolean
  readonly error: Error | null
  readonly onPassword: (password: string) => void
  readonly onGiveUp: () => void
}

function PasswordStep({ words, isBusy, error, onPassword, onGiveUp }: StepProps) {
  const [password, setPassword] = useState('')
  const [isTried, setIsTried] = useState(false)
  const submit = (event: FormEvent) => {
    event.preventDefault()
    setIsTried(true)
    if (password !== '') onPassword(password)
  }
  return (
    <form className="stack" aria-label="Confirm with your password" noValidate onSubmit={submit}>
      <CurrentPassword
        value={password}
        isMissing={isTried && password === ''}
        onType={setPassword}
      />
      {error && <ErrorNote title="Not done" error={error} />}
      <div className="row">
        <Button type="submit" look="main" disabled={isBusy}>
          {words}
        </Button>
        <Button onClick={onGiveUp}>Give up</Button>
      </div>
    </form>
  )
}
