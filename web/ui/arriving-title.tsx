import { type ReactNode, useEffect, useRef } from 'react'
import './arriving-title.css'

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
export function ArrivingTitle({ of, className = '', children }: Props) {
  const ref = useRef<HTMLHeadingElement>(null)
  useEffect(() => {
    if (!of) return
    ref.current?.focus({ preventScroll: true })
    ref.current?.scrollIntoView({ block: 'start' })
  }, [of])
  return (
    <h2 ref={ref} tabIndex={-1} className={`arriving-title ${className}`}>
      {children}
    </h2>
  )
}
