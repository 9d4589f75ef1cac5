import { type ToggleEvent, useState } from 'react'

/** Whether a `<details>` stands open, so that what it holds is only asked for then. */
export function useFold() {
  const [isOpen, setIsOpen] = useState(false)
  const onToggle = ({ newState }: ToggleEvent<HTMLDetailsElement>) => setIsOpen(newState === 'open')
  return { isOpen, onToggle }
}
