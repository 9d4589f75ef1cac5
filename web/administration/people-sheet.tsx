import { useState } from 'react'
import { useMay } from '../api/account.ts'
import { Button } from '../ui/button.tsx'
import { Dialog } from '../ui/dialog.tsx'
import { PeoplePart } from './people-part.tsx'
import { TokenPart } from './token-part.tsx'
import './administration.css'

/** Who may sign in here and as what, and the tokens of machines. */
export function PeopleSheet({ onClose }: { readonly onClose: () => void }) {
  const mayManage = useMay('manage people and tokens')
  const [part, setPart] = useState<'people' | 'tokens'>('people')
  return (
    <Dialog title="People and tokens" isWide onClose={onClose}>
      {mayManage ? (
        <div className="stack">
          <fieldset className="people-parts">
            <legend className="visually-hidden">Part of the sheet</legend>
            <Button isPressed={part === 'people'} onClick={() => setPart('people')}>
              People
            </Button>
            <Button isPressed={part === 'tokens'} onClick={() => setPart('tokens')}>
              Tokens of machines
            </Button>
          </fieldset>
          {part === 'people' ? <PeoplePart /> : <TokenPart />}
        </div>
      ) : (
        <p>Only an administrator may see and change this.</p>
      )}
    </Dialog>
  )
}
