import { useState } from 'react'
import { PERSON_SCREENS } from '../person-screens.ts'
import { useSelection } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'
import { ProfileStrip } from './profile/profile-strip.tsx'

const STORED = 'crossarm.strip'

/** The strip under the map, which folds away and stays so on this device. */
export function StripPanel() {
  const { person } = useSelection()
  const { Strip = ProfileStrip } = PERSON_SCREENS[person]
  const [isOpen, setIsOpen] = useState(() => window.localStorage.getItem(STORED) !== 'folded')
  const turn = () => {
    window.localStorage.setItem(STORED, isOpen ? 'folded' : 'open')
    setIsOpen(!isOpen)
  }
  return (
    <section className="shell-strip" aria-label="Profile" data-open={isOpen}>
      <Button look="plain" className="shell-strip-fold" aria-expanded={isOpen} onClick={turn}>
        {isOpen ? 'Fold away' : 'Show the profile'}
      </Button>
      {isOpen && <Strip />}
    </section>
  )
}
