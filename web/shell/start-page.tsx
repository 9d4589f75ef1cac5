import type { ReactNode } from 'react'
import './start-page.css'

/** What stands where no feeder is open. */
export function StartPage({ children }: { readonly children: ReactNode }) {
  return (
    <main className="start-page">
      <h1>Crossarm</h1>
      {children}
    </main>
  )
}
