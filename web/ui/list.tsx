import type { ReactNode } from 'react'
import './list.css'

/** A list that says how many it holds, for whoever cannot see it at a glance. */
export function List({
  label,
  children,
}: {
  readonly label: string
  readonly children: ReactNode
}) {
  return (
    <ul className="list" aria-label={label}>
      {children}
    </ul>
  )
}

interface RowProps {
  readonly isCurrent?: boolean
  readonly onChoose?: () => void
  /** The pointer or the focus came to the row (true) or left it (false). */
  readonly onPreview?: (isOn: boolean) => void
  readonly children: ReactNode
}

/** One row; a button where choosing it does something. */
export function ListRow({ isCurrent = false, onChoose, onPreview, children }: RowProps) {
  if (!onChoose) {
    return (
      <li className="list-item">
        <div className="list-row">{children}</div>
      </li>
    )
  }
  return (
    <li className="list-item">
      <button
        type="button"
        className="list-row"
        aria-current={isCurrent ? 'true' : undefined}
        onClick={onChoose}
        onPointerEnter={() => onPreview?.(true)}
        onPointerLeave={() => onPreview?.(false)}
        onFocus={() => onPreview?.(true)}
        onBlur={() => onPreview?.(false)}
      >
        {children}
      </button>
    </li>
  )
}
