import { type ReactNode, useState } from 'react'

interface Props {
  readonly title: string
  /** Open from the start. */
  readonly isOpen?: boolean
  readonly children: ReactNode
}

/** A part of a long page under its name; what is folded is not drawn. */
export function CrewFold({ title, isOpen = false, children }: Props) {
  const [isShown, setIsShown] = useState(isOpen)
  return (
    <details
      className="crew-fold"
      open={isShown}
      onToggle={({ currentTarget }) => setIsShown(currentTarget.open)}
    >
      <summary>{title}</summary>
      {isShown && <div className="stack">{children}</div>}
    </details>
  )
}
