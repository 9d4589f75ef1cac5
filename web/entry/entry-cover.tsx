import { useEffect, useRef } from 'react'
import { useMe } from '../api/account.ts'
import { WaysIn } from './ways-in.tsx'
import './entry.css'

/**
 * Stands over the whole page after a session has ended. What was typed stays below it as it is,
 * and the page goes on once the person has signed in again.
 */
export function EntryCover() {
  const ref = useRef<HTMLDialogElement>(null)
  const name = useMe().data?.name
  useEffect(() => {
    const dialog = ref.current
    dialog?.showModal()
    return () => dialog?.close()
  }, [])
  return (
    <dialog
      ref={ref}
      className="entry-cover"
      aria-labelledby="entry-cover-title"
      onCancel={(event) => event.preventDefault()}
      onClose={() => ref.current?.showModal()}
    >
      <div className="entry">
        <h1 id="entry-cover-title" className="entry-mark">
          Your session has ended
        </h1>
        <p>
          What you typed is still here. Sign in again{name ? ` as ${name}` : ''}, and the page goes
          on where it was.
        </p>
        <WaysIn />
      </div>
    </dialog>
  )
}
