import { type ReactNode, useEffect, useId, useRef } from 'react'
import { Button } from './button.tsx'
import './dialog.css'

interface Props {
  readonly title: string
  /** For lists and forms; on a phone either takes the whole page. */
  readonly isWide?: boolean
  readonly onClose: () => void
  readonly children: ReactNode
}

/** A sheet over the page; Escape closes it and the focus goes back to where it was. Never two at once. */
export function Dialog({ title, isWide = false, onClose, children }: Props) {
  const ref = useRef<HTMLDialogElement>(null)
  const titleId = useId()
  useEffect(() => {
    const dialog = ref.current
    dialog?.showModal()
    return () => dialog?.close()
  }, [])
  return (
    <dialog
      ref={ref}
      className={isWide ? 'dialog dialog-wide' : 'dialog'}
      aria-labelledby={titleId}
      onClose={onClose}
    >
      <div className="dialog-head">
        <h2 id={titleId}>{title}</h2>
        <Button look="plain" onClick={onClose}>
          Close
        </Button>
      </div>
      {children}
    </dialog>
  )
}
