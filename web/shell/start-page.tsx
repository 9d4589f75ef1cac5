import type { ReactNode } from 'react'
import { EmptyNote } from '../ui/state-note.tsx'
import './start-page.css'

interface Props {
  readonly isPlain?: boolean
  readonly children?: ReactNode
}

/** What stands where no feeder is open. */
export function StartPage({ isPlain = false, children }: Props) {
  return (
    <main className="start-page">
      <h1>Crossarm</h1>
      {children}
      {!isPlain && !children && (
        <EmptyNote what="There is no feeder yet. A feeder comes from a folder of layers: feeder.json, poles.geojson and spans.geojson at least." />
      )}
    </main>
  )
}
