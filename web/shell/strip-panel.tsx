import { useState } from 'react'
import { PERSON_SCREENS } from '../person-screens.ts'
import { useSelection } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'
import { ProfileStrip } from './profile-strip.tsx'

/** The strip under the map, which folds away. */
export function StripPanel() {
  const { person } = useSelection()
  const { Strip = ProfileStrip } = PERSON_SCREENS[person]
  const [isOpen, setIsOpen] = useState(true)
  return (
    <section className="shell-strip" aria-label="Profile">
      <Button look="plain" aria-expanded={isOpen} onClick={() => setIsOpen(!isOpen)}>
        {isOpen ? 'Fold the profile away' : 'Show the profile'}
      </Button>
      {isOpen && <Strip />}
    </section>
  )
}
