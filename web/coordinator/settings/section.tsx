import type { ReactNode } from 'react'

interface Props {
  readonly title: string
  /** What stands now, for whoever does not open it. */
  readonly now: string
  readonly children: ReactNode
}

/** One part of the settings, folded until it is asked for. */
export function Section({ title, now, children }: Props) {
  return (
    <details className="setting">
      <summary>
        <strong>{title}</strong>
        <span className="soft">{now}</span>
      </summary>
      <div className="stack">{children}</div>
    </details>
  )
}
