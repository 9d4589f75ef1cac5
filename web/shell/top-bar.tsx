import { useState } from 'react'
import { useFeeder } from '../state/feeder.tsx'
import { select } from '../state/selection.ts'
import { useShownCaseId } from '../state/solutions.ts'
import { Button } from '../ui/button.tsx'
import { PHONE, useMedia } from '../ui/use-media.ts'
import { AccountMenu } from './account-menu.tsx'
import { BarSelect } from './bar-select.tsx'
import { DeskChoice } from './desk-choice.tsx'
import { FeederSwitch } from './feeder-switch.tsx'
import { ViewChoices } from './view-choices.tsx'
import './top-bar.css'

/** Place, feeder and load case; on a phone the other choices fold out below. */
export function TopBar() {
  const isPhone = useMedia(PHONE)
  const [isOpen, setIsOpen] = useState(false)
  return (
    <header className="top-bar" data-open={isOpen}>
      <strong className="top-bar-mark">Crossarm</strong>
      {!isPhone && <PlaceName />}
      <FeederSwitch />
      {isPhone && (
        <Button aria-expanded={isOpen} onClick={() => setIsOpen(!isOpen)}>
          {isOpen ? 'Less' : 'More'}
        </Button>
      )}
      {(!isPhone || isOpen) && (
        <>
          <CaseChoice />
          <ViewChoices />
          <DeskChoice />
          <AccountMenu />
        </>
      )}
    </header>
  )
}

/** The place whose land is drawn; a feeder without one is a drawing on plain paper. */
function PlaceName() {
  const { place } = useFeeder().feeder.header
  const words = place ? sentenceCase(place.replaceAll('-', ' ')) : 'None: a scheme'
  return (
    <span className="top-bar-field">
      <span className="top-bar-label">Place</span>
      <span className="top-bar-place">{words}</span>
    </span>
  )
}

function sentenceCase(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1)
}

function CaseChoice() {
  const { cases } = useFeeder().feeder.header
  return (
    <BarSelect
      label="Load case"
      value={useShownCaseId()}
      choices={cases.map(({ id, name }) => [id, name] as const)}
      onChoose={(id) => select({ case: id })}
    />
  )
}
