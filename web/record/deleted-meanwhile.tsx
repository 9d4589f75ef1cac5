import type { Thing } from '../api/history.ts'
import { Button } from '../ui/button.tsx'
import { useWriter } from './use-writer.ts'
import './record.css'

interface Props {
  readonly thing: Thing
  readonly what: string
  /** That the deletion came to. */
  readonly version: number
  readonly onRestore: (version: number) => void
  readonly onDropMine: () => void
}

/** Over an open form whose thing was deleted by someone else. */
export function DeletedMeanwhile({ thing, what, version, onRestore, onDropMine }: Props) {
  const { name } = useWriter(thing, version)
  return (
    <div className="side-by-side stack" role="alert">
      <p>
        <strong>
          {name} deleted {what} while you were typing.
        </strong>{' '}
        Nothing of yours is lost.
      </p>
      <div className="row">
        <Button onClick={() => onRestore(version)}>Restore it and go on</Button>
        <Button onClick={onDropMine}>Leave it deleted, drop mine</Button>
      </div>
    </div>
  )
}
