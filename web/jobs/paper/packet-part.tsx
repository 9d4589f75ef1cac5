import type { ReactNode } from 'react'

interface Props {
  readonly title: string
  /** Begins on a new sheet of paper. */
  readonly startsPage?: boolean
  readonly children: ReactNode
}

/** One part of the packet under its heading. */
export function PacketPart({ title, startsPage = false, children }: Props) {
  return (
    <section
      className={startsPage ? 'paper-part paper-part-first' : 'paper-part'}
      aria-label={title}
    >
      <h3>{title}</h3>
      {children}
    </section>
  )
}
