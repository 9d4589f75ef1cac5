import { type ReactNode, useEffect, useRef } from 'react'

interface Props {
  /** Names what is shown; another one makes the title arrive again. */
  readonly of: string
  readonly className?: string
  readonly children: ReactNode
}

/**
 * Title of a panel that takes the place of another: it comes into view and takes the focus, so
 * that nobody is left at the foot of what was there before.
 */
export function ArrivingTitle({ of, className, children }: Props) {
  const ref = useRef<HTMLHeadingElement>(null)
  useEffect(() => {
    if (of) ref.current?.focus()
  }, [of])
  return (
    <h2 ref={ref} tabIndex={-1} className={className}>
      {children}
    </h2>
  )
}
