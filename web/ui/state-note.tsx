import type { ReactNode } from 'react'
import { Button } from './button.tsx'
import './state-note.css'

/** Says in words what is being waited for. */
export function LoadingNote({ what }: { readonly what: string }) {
  return (
    <div className="state-note" role="status">
      {what}
    </div>
  )
}

interface EmptyProps {
  /** What would fill the place, and how. */
  readonly what: string
  /** The step itself, as a button. */
  readonly children?: ReactNode
}

export function EmptyNote({ what, children }: EmptyProps) {
  return (
    <div className="state-note">
      <span>{what}</span>
      {children}
    </div>
  )
}

interface ErrorProps {
  readonly title: string
  readonly error: unknown
  readonly onRetry?: () => void
}

export function ErrorNote({ title, error, onRetry }: ErrorProps) {
  return (
    <div className="state-note state-note-error" role="alert">
      <span className="state-note-title">{title}</span>
      <span>{error instanceof Error ? error.message : String(error)}</span>
      {onRetry && <Button onClick={onRetry}>Try again</Button>}
    </div>
  )
}
